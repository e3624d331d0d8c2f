// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an entry may name; see entry_choices.h.
#include "report/entry_choices.h"

#include "rules/waivers.h"

#include <algorithm>
#include <iterator>

namespace report {

std::set<std::string> alarmCodes(const rules::Rulebook& rulebook) {
    std::set<std::string> codes;
    for (const auto& [code, label] : rulebook.alarmLabels) codes.insert(code);
    for (const auto& check : rulebook.checks)
        for (const auto& voided : check.voidedBy)
            if (voided.event.kind == rules::EventKind::Alarm && voided.event.subject != "*")
                codes.insert(voided.event.subject);
    return codes;
}

bool faultBlocks(const rules::Rulebook& rulebook, std::string_view code) {
    const auto* fault = rulebook.fault(code);
    return fault == nullptr || fault->blocking.value_or(true);
}

std::vector<rules::Finding> waivable(const rules::Rulebook& rulebook,
                                     const std::vector<rules::Finding>& findings) {
    std::vector<rules::Finding> all;
    std::ranges::copy_if(findings, std::back_inserter(all), [&](const rules::Finding& finding) {
        return rules::mayBeWaived(rulebook, name(finding.code), finding.subject);
    });
    return all;
}

std::vector<logbook::Instant> waiverEnds(const rules::Rulebook& rulebook, logbook::Instant at) {
    const auto latest = rules::latestWaiverEnd(rulebook, at);
    std::vector<logbook::Instant> ends;
    for (const int days : {1, 3, 7, 14, 30}) {
        const auto end = at + logbook::Duration{days * 86'400'000LL};
        if (end < latest) ends.push_back(end);
    }
    if (latest > at) ends.push_back(latest);
    return ends;
}

}  // namespace report
