// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Classing starts of use; see start_judge.h.
#include "rules/start_judge.h"

#include <algorithm>

namespace rules {
namespace {

namespace body = logbook::body;

// What a start found: nothing blocking, or what blocked it.
struct StartFinding {
    bool ready = false;
    bool unenrolled = false;
    std::vector<Finding> blocking;
    std::vector<Finding> all;
};

StartFinding lookAt(const State& all, const logbook::Record& record, bool ignoreWaivers) {
    const Device* device = all.device(record.device);
    if (!device || device->retired) return {false, true, {}, {}};
    State before = all.excerpt({record.device});
    applyImpliedUseEnd(before, record);
    device = before.device(record.device);
    const auto& start = std::get<body::UseStart>(record.body);
    const auto assessment =
        assess(before, *device, {record.at, start.group, ignoreWaivers, false, false});
    StartFinding found;
    found.all = assessment.findings;
    for (const Finding& finding : found.all) {
        if (finding.blocking() != Blocks::No) found.blocking.push_back(finding);
    }
    // By an earlier knowledge the same patient may still be connected: no start then, and not
    // ready.
    found.ready = found.blocking.empty() && !device->use;
    return found;
}

bool stoodOnHold(const std::vector<Finding>& findings) {
    return std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
        const bool danger = finding.code == FindingCode::Withdrawn ||
                            finding.code == FindingCode::Fault ||
                            finding.code == FindingCode::Notice;
        return danger && finding.blocks == Blocks::Yes;
    });
}

}  // namespace

StartJudge::StartJudge(const Log& log, Instant knownAt)
    : m_log(log), m_knownAt(knownAt), m_earlier(log) {}

StartException StartJudge::judge(std::size_t index, const State& before) {
    const auto& record = m_log.records()[index];
    StartException exception;
    exception.record = index;
    exception.lateEntryAfter = before.rulebook->lateEntryAfter;
    const StartFinding found = lookAt(before, record, false);
    exception.usedOnHold = stoodOnHold(found.all);
    if (!found.ready) {
        const bool emergency = std::get<body::UseStart>(record.body).emergency;
        exception.startClass = emergency ? StartClass::Emergency : StartClass::Noncompliant;
        exception.findings = found.blocking;
        exception.unenrolled = found.unenrolled;
        return exception;
    }
    const Instant inTime = std::min(record.at + before.rulebook->lateEntryAfter, m_knownAt);
    const StartFinding known = lookAt(m_earlier.before(index, inTime), record, false);
    exception.late = record.entered > record.at + before.rulebook->lateEntryAfter;
    if (!known.ready || exception.late) {
        exception.startClass = StartClass::CompliantLate;
        exception.findings = known.blocking;
        exception.unenrolled = known.unenrolled;
        return exception;
    }
    const StartFinding unwaived = lookAt(before, record, true);
    if (!unwaived.ready) {
        exception.startClass = StartClass::CompliantWaived;
        exception.findings = unwaived.blocking;
    }
    return exception;
}

}  // namespace rules
