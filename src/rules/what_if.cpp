// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Replays under one edition and the next; see what_if.h.
#include "rules/what_if.h"

#include "rules/check_calls.h"

#include <algorithm>

namespace rules {
namespace {

std::vector<Finding> blockingBut(const Assessment& assessment, const Assessment& other) {
    std::vector<Finding> findings;
    for (const Finding& finding : assessment.findings) {
        if (finding.blocking() != Blocks::Yes) continue;
        const bool both =
            std::any_of(other.findings.begin(), other.findings.end(), [&](const Finding& each) {
                return each.blocking() == Blocks::Yes && each.code == finding.code &&
                       each.subject == finding.subject;
            });
        if (!both) findings.push_back(finding);
    }
    return findings;
}

std::vector<Flip> flipsBetween(const State& before, const State& after, Instant at) {
    std::vector<Flip> flips;
    for (const auto& [serial, device] : before.devices) {
        const auto now = assess(before, *device, {at, std::nullopt, false, false});
        const auto then = assess(after, *after.device(serial), {at, std::nullopt, false, false});
        if (now.verdict == then.verdict) continue;
        flips.push_back(
            {serial, now.verdict, then.verdict, blockingBut(now, then), blockingBut(then, now)});
    }
    return flips;
}

template <class Named>
std::vector<std::string> onlyIn(const std::vector<Named>& these, const std::vector<Named>& those) {
    std::vector<std::string> keys;
    for (const Named& named : these) {
        const bool known = std::any_of(those.begin(), those.end(),
                                       [&](const Named& each) { return each.key == named.key; });
        if (!known) keys.push_back(named.key);
    }
    return keys;
}

NamedNoMore noMoreIn(const State& state, const Rulebook& draft) {
    const Rulebook& inForce = *state.rulebook;
    NamedNoMore none{onlyIn(inForce.groups, draft.groups),
                     onlyIn(inForce.checks, draft.checks),
                     onlyIn(inForce.positions, draft.positions),
                     onlyIn(inForce.services, draft.services),
                     {}};
    for (const auto& [serial, device] : state.devices) {
        const auto group = device->group();
        const bool isNoMore =
            group && std::find(none.groups.begin(), none.groups.end(), *group) != none.groups.end();
        if (isNoMore && !device->retired) none.units.push_back(serial);
    }
    return none;
}

// The whole log under one edition.
class Replay {
public:
    // Months are told in `zone`.
    Replay(const Log& log, const std::shared_ptr<const Rulebook>& edition,
           const WhatIfQuestion& question, const Zone& zone)
        : m_log(log.under(edition)),
          m_question(question),
          m_zone(zone),
          m_calls(checkCalls(m_log, question.at, question.knownAt)) {}

    [[nodiscard]] MonthAnswer month(std::chrono::year_month month) const {
        return *rules::month(m_log, {month, m_question.at, m_question.knownAt, &m_zone});
    }

    [[nodiscard]] MonthUnder under(const MonthAnswer& answer) const {
        const auto first = std::lower_bound(m_calls.begin(), m_calls.end(), answer.from);
        const auto last = std::lower_bound(first, m_calls.end(), answer.to);
        return {answer.starts, answer.groups, static_cast<int>(last - first)};
    }

private:
    Log m_log;
    const WhatIfQuestion& m_question;
    const Zone& m_zone;
    std::vector<Instant> m_calls;
};

std::optional<Instant> firstHappened(const Log& log, Instant knownAt) {
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        if (log.takesPart(index, knownAt)) return log.records()[index].at;
    }
    return std::nullopt;
}

}  // namespace

WhatIf whatIf(const Log& log, const std::shared_ptr<const Rulebook>& draft,
              const WhatIfQuestion& question) {
    WhatIf answer;
    answer.now = log.stateAt(question.at, question.knownAt);
    answer.then = answer.now;
    adopt(answer.then, draft, RecordRef{question.at, unlimited, {"~", 1}});
    answer.noMore = noMoreIn(answer.now, *draft);
    answer.flips = flipsBetween(answer.now, answer.then, question.at);
    const Rulebook& inForce = *answer.now.rulebook;
    answer.anew = {onlyIn(draft->checks, inForce.checks),
                   onlyIn(draft->positions, inForce.positions),
                   onlyIn(draft->services, inForce.services)};
    const Zone& zone = *inForce.zone;
    const Replay now(log, answer.now.rulebook, question, zone);
    const Replay then(log, draft, question, zone);
    const auto begin = firstHappened(log, question.knownAt);
    const std::chrono::year_month_day today{zone.dayOf(question.at)};
    for (int back = question.months - 1; back >= 0; --back) {
        MonthCompared compared;
        compared.month = today.year() / today.month() - std::chrono::months{back};
        const auto monthNow = now.month(compared.month);
        compared.from = monthNow.from;
        compared.to = monthNow.to;
        if (back > 0 && (!begin || compared.to <= *begin)) {
            ++answer.monthsBefore;
            continue;
        }
        compared.now = now.under(monthNow);
        compared.then = then.under(then.month(compared.month));
        answer.months.push_back(std::move(compared));
    }
    return answer;
}

}  // namespace rules
