// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Each unit is looked at before and after each record on it, so that a check which ran out between
// two records is seen; see check_calls.h.
#include "rules/check_calls.h"

#include "rules/assess.h"

#include <algorithm>
#include <map>
#include <set>
#include <string>

namespace rules {
namespace {

class CallCounter {
public:
    CallCounter(const Log& log, Instant knownAt) : m_log(log), m_knownAt(knownAt) {}

    std::vector<Instant> count(Instant end) {
        m_state.rulebook = m_log.firstEdition();
        for (std::size_t index = 0; index < m_log.records().size(); ++index) {
            const auto& record = m_log.records()[index];
            if (record.at >= end) break;
            if (m_log.takesPart(index, m_knownAt)) take(record);
        }
        for (const auto& [serial, device] : m_state.devices) look(serial, justBefore(end));
        std::sort(m_calls.begin(), m_calls.end());
        return std::move(m_calls);
    }

private:
    // Of one check of one unit.
    struct Standing {
        bool owed = false;
        std::optional<RecordRef> takenAsDone;  // by the last start of use at which it was owed
    };

    static Instant justBefore(Instant instant) { return {instant.ms - 1}; }

    void take(const logbook::Record& record) {
        look(record.device, record.at);
        const Effect effect = fold(m_state, record, m_log.editions());
        if (effect.countedStart) takeAsDone(record);
        std::set<std::string> touched{record.device};
        for (const DeviceEvent& event : effect.events) touched.insert(event.device);
        if (record.kind() == logbook::Kind::Adopt) {
            for (const auto& [serial, device] : m_state.devices) touched.insert(serial);
        }
        for (const auto& serial : touched) look(serial, record.at);
    }

    void takeAsDone(const logbook::Record& start) {
        const auto unit = m_standing.find(start.device);
        if (unit == m_standing.end()) return;
        for (auto& [key, standing] : unit->second) {
            if (!standing.owed) continue;
            standing.owed = false;
            standing.takenAsDone = refOf(start);
        }
    }

    void look(const std::string& serial, Instant at) {
        const Device* device = m_state.device(serial);
        if (!device) return;
        auto& unit = m_standing[serial];
        if (device->retired) return unit.clear();
        for (const Check& check : m_state.rulebook->checks) {
            Standing& standing = unit[check.key];
            const auto since = owedSince(*device, check, standing, at);
            if (since && !standing.owed) m_calls.push_back(*since);
            standing.owed = since.has_value();
        }
    }

    // When the check came to be owed, if it is: of one that ran out that instant, else now.
    [[nodiscard]] std::optional<Instant> owedSince(const Device& device, const Check& check,
                                                   const Standing& standing, Instant at) const {
        const CheckStatus status = statusOf(m_state, device, check, at);
        if (status == CheckStatus::Current || status == CheckStatus::Exempt) return std::nullopt;
        const auto found = device.checks.find(check.key);
        const CheckState* state = found == device.checks.end() ? nullptr : &found->second;
        const auto& done = standing.takenAsDone;
        const bool upset = state && done &&
                           ((state->voided && *state->voided >= *done) ||
                            (state->lastFailure && *state->lastFailure > *done));
        if (done && !upset) {
            if (!check.validFor || at < done->at + *check.validFor) return std::nullopt;
            return done->at + *check.validFor;
        }
        if (status == CheckStatus::Lapsed) return state->last->at + *check.validFor;
        return at;
    }

    const Log& m_log;
    Instant m_knownAt;
    State m_state;
    std::map<std::string, std::map<std::string, Standing>> m_standing;  // by unit and check
    std::vector<Instant> m_calls;
};

}  // namespace

std::vector<Instant> checkCalls(const Log& log, Instant end, Instant knownAt) {
    return CallCounter(log, knownAt).count(end);
}

}  // namespace rules
