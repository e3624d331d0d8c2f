// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Classing starts of use; see start_judge.h.
#include "rules/start_judge.h"

#include <algorithm>
#include <limits>

namespace rules {
namespace {

namespace body = logbook::body;

constexpr std::size_t recordsBetweenPlaces = 512;

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
    : m_log(log), m_knownAt(knownAt), m_fits(log) {
    m_settled.reserve(log.records().size());
    Instant settled{std::numeric_limits<std::int64_t>::min()};
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const Instant entered = log.records()[index].entered;
        if (entered <= knownAt) settled = std::max(settled, entered);
        const auto* strike = log.struckBy(index);
        if (strike && strike->entered <= knownAt) settled = std::max(settled, strike->entered);
        m_settled.push_back(settled);
    }
}

void StartJudge::passed(std::size_t index, const State& before) {
    if (index % recordsBetweenPlaces == 0) m_places.push_back({index, before});
}

std::size_t StartJudge::firstUnknown(std::size_t index, Instant knownAt) const {
    const auto end = m_settled.begin() + static_cast<std::ptrdiff_t>(index);
    const auto found = std::upper_bound(m_settled.begin(), end, knownAt);
    return static_cast<std::size_t>(found - m_settled.begin());
}

bool StartJudge::differsFor(const Ties& ties, Stretch stretch, Instant knownAt) const {
    for (std::size_t index = stretch.first; index < stretch.end; ++index) {
        if (!ties.devices[m_log.deviceNumber(index)]) continue;
        if (m_log.takesPart(index, knownAt) != m_log.takesPart(index, m_knownAt)) return true;
    }
    return false;
}

// Folds again only what comes after the first record that was not known, or not yet struck, then,
// and of that only what can bear on the device.
State StartJudge::knownBefore(std::size_t index, Instant knownAt, const State& before) const {
    const std::string& device = m_log.records()[index].device;
    const std::size_t differs = firstUnknown(index, knownAt);
    if (differs == index) return before.excerpt({device});
    const auto place =
        std::find_if(m_places.rbegin(), m_places.rend(),
                     [&](const Place& candidate) { return candidate.index <= differs; });
    const Ties ties = m_fits.tiedTo(device, place->state, {place->index, index});
    if (!differsFor(ties, {differs, index}, knownAt)) return before.excerpt({device});
    State state = place->state.excerpt(ties.serials, ties.parts);
    for (std::size_t next = place->index; next < index; ++next) {
        if (!ties.devices[m_log.deviceNumber(next)]) continue;
        if (m_log.takesPart(next, knownAt)) fold(state, m_log.records()[next], m_log.editions());
    }
    return state;
}

StartException StartJudge::judge(std::size_t index, const State& before) const {
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
    const StartFinding known = lookAt(knownBefore(index, inTime, before), record, false);
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
