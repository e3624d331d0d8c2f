// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The same device by two states of knowledge; see look_back.h.
#include "rules/look_back.h"

#include "rules/part_stays.h"

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

std::optional<Assessment> assessAs(const State& state, const LookBackQuestion& question,
                                   std::set<RecordName>& names) {
    const Device* device = state.device(question.device);
    if (!device) return std::nullopt;
    auto assessment = assess(state, *device, {question.at, question.group});
    addEvidence(names, *device, assessment);
    return assessment;
}

bool bearsOn(const logbook::Record& record, const LookBackQuestion& question,
             const PartStays& parts) {
    const auto kind = record.kind();
    if (kind == logbook::Kind::Strike || kind == logbook::Kind::Sign) return false;
    return record.device.empty() || record.device == question.device || parts.bears(record);
}

}  // namespace

LookBack lookBack(const Log& log, const LookBackQuestion& question) {
    LookBack answer;
    PartStays parts(log, question.device, question.at);
    answer.knownState = parts.follow(question.knownAt);
    answer.actualState = parts.follow(unlimited);
    std::set<RecordName> names;
    answer.known = assessAs(answer.knownState, question, names);
    answer.actual = assessAs(answer.actualState, question, names);
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (record.at > question.at) break;
        const bool isEvidence = names.contains(record.name);
        if (isEvidence) answer.evidence.push_back(index);
        if (!isEvidence && !bearsOn(record, question, parts)) continue;
        const bool tookPart = log.takesPart(index, question.knownAt);
        if (record.entered > question.knownAt) answer.enteredSince.push_back(index);
        if (tookPart && log.struckBy(index)) answer.struckSince.push_back(index);
    }
    return answer;
}

}  // namespace rules
