// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The same device by two states of knowledge; see look_back.h.
#include "rules/look_back.h"

#include <set>

namespace rules {
namespace {

void addEvidence(std::set<RecordName>& names, const Device& device, const Assessment& assessment) {
    for (const Finding& finding : assessment.findings) {
        if (finding.record) names.insert(finding.record->name);
        if (finding.discounted) names.insert(finding.discounted->record.name);
    }
    for (const auto& [key, status] : assessment.checks) {
        const auto check = device.checks.find(key);
        const bool counted = check != device.checks.end() && check->second.last;
        if (status == CheckStatus::Current && counted) names.insert(check->second.last->name);
    }
}

std::optional<Assessment> assessAs(const Log& log, const LookBackQuestion& question,
                                   Instant knownAt, std::set<RecordName>& names) {
    const State state = log.stateAt(question.at, knownAt);
    const Device* device = state.device(question.device);
    if (!device) return std::nullopt;
    auto assessment = assess(state, *device, {question.at, question.group});
    addEvidence(names, *device, assessment);
    return assessment;
}

}  // namespace

LookBack lookBack(const Log& log, const LookBackQuestion& question) {
    LookBack answer;
    std::set<RecordName> names;
    answer.known = assessAs(log, question, question.knownAt, names);
    answer.actual = assessAs(log, question, unlimited, names);
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (record.at > question.at) break;
        if (names.contains(record.name)) answer.evidence.push_back(index);
        if (!record.device.empty() && record.device != question.device) continue;
        if (record.kind() == logbook::Kind::Strike) continue;
        const bool tookPart = log.takesPart(index, question.knownAt);
        if (record.entered > question.knownAt) answer.enteredSince.push_back(index);
        if (tookPart && log.struckBy(index)) answer.struckSince.push_back(index);
    }
    return answer;
}

}  // namespace rules
