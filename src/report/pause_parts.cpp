// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Parts taken out in a pause; see pause_parts.h.
#include "report/pause_parts.h"

#include "report/walk_back.h"

#include <set>

namespace report {

namespace {

// Walks back over the records of a unit.
class WayBack {
public:
    WayBack(const rules::State& state, const rules::Device& device)
        : m_state(state), m_device(device) {}

    // False where nothing before matters.
    bool take(const logbook::Record& record) {
        if (record.kind() == logbook::Kind::UsePause) m_isInPause = false;
        if (const auto* remove = std::get_if<logbook::body::Remove>(&record.body)) {
            if (m_isInPause && !m_device.fitted.contains(remove->position))
                m_waiting.insert(remove->position);
        } else if (const auto* fit = std::get_if<logbook::body::Fit>(&record.body)) {
            if (m_waiting.erase(fit->position) > 0) add(fit->position, record.at);
        }
        return m_isInPause || !m_waiting.empty();
    }

    std::map<std::string, TakenOut> taken() && { return std::move(m_taken); }

private:
    void add(const std::string& position, logbook::Instant at) {
        const auto held = m_device.lastHeld.find(position);
        if (held == m_device.lastHeld.end()) return;
        const auto& part = held->second;
        const auto known = m_state.parts.find({position, std::string(part.serial())});
        const bool isElsewhere = known != m_state.parts.end() && !known->second->device.empty();
        if (!isElsewhere) m_taken.try_emplace(position, TakenOut{part, at});
    }

    const rules::State& m_state;
    const rules::Device& m_device;
    std::set<std::string> m_waiting;
    bool m_isInPause = true;
    std::map<std::string, TakenOut> m_taken;
};

}  // namespace

std::map<std::string, TakenOut> takenOutInPause(const rules::Log& log, const rules::State& state,
                                                const KnownBy& known, const std::string& device) {
    const auto* unit = state.device(device);
    const auto number = log.deviceNumber(device);
    if (!unit || !number || unit->retired || !unit->use || !unit->use->paused) return {};
    WayBack back(state, *unit);
    walkBack(log, *number, known,
             [&](const logbook::Record& record) { return back.take(record); });
    return std::move(back).taken();
}

}  // namespace report
