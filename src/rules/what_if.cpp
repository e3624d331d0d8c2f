// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Replays under one edition and the next; see what_if.h.
#include "rules/what_if.h"

#include <algorithm>

namespace rules {
namespace {

std::vector<Flip> flipsAt(const State& state, const std::shared_ptr<const Rulebook>& draft,
                          Instant at) {
    State adopted = state;
    adopt(adopted, draft, RecordRef{at, unlimited, {"~", 1}});
    std::vector<Flip> flips;
    for (const auto& [serial, device] : state.devices) {
        const auto now = assess(state, *device, {at, std::nullopt, false, false});
        auto then = assess(adopted, *adopted.device(serial), {at, std::nullopt, false, false});
        if (now.verdict == then.verdict) continue;
        Flip flip{serial, now.verdict, then.verdict, {}};
        for (Finding& finding : then.findings) {
            if (finding.blocking() == Blocks::Yes) flip.findings.push_back(std::move(finding));
        }
        flips.push_back(std::move(flip));
    }
    return flips;
}

// How often checks stopped to stand, by what was recorded and by time: work that came up.
class CallCounter {
public:
    explicit CallCounter(const Log& log) : m_log(log) {}

    int count(Instant from, Instant to, Instant knownAt) {
        State state;
        state.rulebook = m_log.firstEdition();
        m_calls = 0;
        m_standing.clear();
        for (std::size_t index = 0; index < m_log.records().size(); ++index) {
            const auto& record = m_log.records()[index];
            if (record.at >= to) break;
            if (!m_log.takesPart(index, knownAt)) continue;
            m_counting = record.at >= from;
            const Effect effect = fold(state, record, m_log.editions());
            std::set<std::string> touched;
            for (const DeviceEvent& event : effect.events) touched.insert(event.device);
            touched.insert(record.device);
            for (const auto& serial : touched) look(serial, state, record.at);
        }
        return m_calls;
    }

private:
    void look(const std::string& serial, const State& state, Instant at) {
        const Device* device = state.device(serial);
        if (!device || device->retired) return;
        auto& standing = m_standing[serial];
        for (const Check& check : state.rulebook->checks) {
            const auto status = statusOf(state, *device, check, at);
            const bool stands = status == CheckStatus::Current;
            const bool stood = standing.contains(check.key);
            const bool called = stood && !stands && status != CheckStatus::Exempt;
            if (called && m_counting) ++m_calls;
            if (stands) standing.insert(check.key);
            if (!stands) standing.erase(check.key);
        }
    }

    const Log& m_log;
    std::map<std::string, std::set<std::string>> m_standing;
    int m_calls = 0;
    bool m_counting = false;
};

MonthUnder monthUnder(const Log& log, MonthCompared& compared, const WhatIfQuestion& question) {
    MonthUnder under;
    const auto answer = month(log, {compared.month, question.at, question.knownAt});
    if (!answer) return under;
    compared.from = answer->from;
    compared.to = answer->to;
    under.starts = answer->starts;
    under.groups = answer->groups;
    under.checksCalled = CallCounter(log).count(answer->from, answer->to, question.knownAt);
    return under;
}

}  // namespace

WhatIf whatIf(const Log& log, const std::shared_ptr<const Rulebook>& draft,
              const WhatIfQuestion& question) {
    WhatIf answer;
    const State state = log.stateAt(question.at, question.knownAt);
    answer.flips = flipsAt(state, draft, question.at);
    const Log now = log.under(state.rulebook);
    const Log then = log.under(draft);
    const std::chrono::year_month_day today{state.rulebook->zone->dayOf(question.at)};
    const std::chrono::year_month last{today.year(), today.month()};
    for (int back = question.months - 1; back >= 0; --back) {
        MonthCompared compared;
        compared.month = last - std::chrono::months{back};
        compared.now = monthUnder(now, compared, question);
        compared.then = monthUnder(then, compared, question);
        answer.months.push_back(std::move(compared));
    }
    return answer;
}

}  // namespace rules
