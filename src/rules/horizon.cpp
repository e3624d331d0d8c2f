// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Lapses, falls below par and their remedies; see horizon.h.
#include "rules/horizon.h"

#include <algorithm>
#include <tuple>

namespace rules {
namespace {

struct Unit {
    const Device* device = nullptr;
    Assessment assessment;
};

std::vector<Unit> lookAtAll(const State& state, Instant at) {
    std::vector<Unit> units;
    for (const auto& [serial, device] : state.devices) {
        if (!device->retired) units.push_back({device.get(), assess(state, *device, {at})});
    }
    return units;
}

std::vector<Lapse> lapsesOf(const State& state, const std::vector<Unit>& units, Instant to) {
    std::vector<Lapse> lapses;
    for (const Unit& unit : units) {
        const auto& until = unit.assessment.readyUntil;
        if (!until || *until > to) continue;
        Lapse lapse{unit.assessment.device, unit.assessment.group, *until, {}};
        for (Finding& finding : assess(state, *unit.device, {*until}).findings) {
            if (finding.blocking() == Blocks::Yes) lapse.findings.push_back(std::move(finding));
        }
        lapses.push_back(std::move(lapse));
    }
    std::sort(lapses.begin(), lapses.end(), [](const Lapse& a, const Lapse& b) {
        return std::tie(a.at, a.device) < std::tie(b.at, b.device);
    });
    return lapses;
}

Duration attendedTime(const std::vector<Task>& tasks) {
    Duration total;
    for (const Task& task : tasks) total.ms += (task.attended - task.start).ms;
    return total;
}

std::optional<Remedy> remedyOf(const State& state, const Device& device, Instant at, bool renewal) {
    Plan way = plan(state, device, at, std::nullopt);
    if (!way.readyAt || !way.runsOut.empty() || way.tasks.empty()) return std::nullopt;
    Remedy remedy{device.serial, renewal, attendedTime(way.tasks), renewal ? at : *way.readyAt, {}};
    remedy.tasks = std::move(way.tasks);
    return remedy;
}

class GroupForecast {
public:
    GroupForecast(const State& state, const Horizon& horizon, const std::vector<Unit>& units)
        : m_state(state), m_horizon(horizon), m_units(units) {}

    GroupHorizon of(const Group& group) const {
        GroupHorizon forecast;
        forecast.group = group.key;
        forecast.par = *group.par;
        for (const Unit& unit : m_units) {
            const bool ready = unit.assessment.verdict == Verdict::Ready;
            if (ready && unit.assessment.group == group.key) ++forecast.ready;
        }
        forecast.least = forecast.ready;
        if (forecast.ready < forecast.par) forecast.belowFrom = m_horizon.from;
        for (const Lapse& lapse : m_horizon.lapses) {
            if (lapse.group != group.key) continue;
            --forecast.least;
            if (forecast.least < forecast.par && !forecast.belowFrom) forecast.belowFrom = lapse.at;
        }
        if (forecast.belowFrom) addRemedies(forecast);
        return forecast;
    }

private:
    // Each remedy gives one ready unit more, so the cheapest ones are the least work.
    void addRemedies(GroupHorizon& forecast) const {
        std::vector<Remedy> remedies = candidates(forecast);
        std::sort(remedies.begin(), remedies.end(), [](const Remedy& a, const Remedy& b) {
            return std::tie(a.attended, a.by, a.device) < std::tie(b.attended, b.by, b.device);
        });
        const auto wanted = static_cast<std::size_t>(forecast.par - forecast.least);
        forecast.enough = remedies.size() >= wanted;
        remedies.resize(std::min(remedies.size(), wanted));
        forecast.remedies = std::move(remedies);
    }

    std::vector<Remedy> candidates(const GroupHorizon& forecast) const {
        std::vector<Remedy> remedies;
        const bool already = *forecast.belowFrom == m_horizon.from;
        for (const Unit& unit : m_units) {
            const bool waits = unit.assessment.verdict == Verdict::NotReady;
            if (!waits || unit.assessment.group != forecast.group) continue;
            auto remedy = remedyOf(m_state, *unit.device, m_horizon.from, false);
            const bool inTime = remedy && (already || remedy->by <= *forecast.belowFrom);
            if (inTime) remedies.push_back(std::move(*remedy));
        }
        for (const Lapse& lapse : m_horizon.lapses) {
            if (lapse.group != forecast.group) continue;
            auto remedy = remedyOf(m_state, *m_state.device(lapse.device), lapse.at, true);
            if (remedy) remedies.push_back(std::move(*remedy));
        }
        return remedies;
    }

    const State& m_state;
    const Horizon& m_horizon;
    const std::vector<Unit>& m_units;
};

}  // namespace

Horizon horizon(const State& state, Instant at, Duration ahead) {
    Horizon answer;
    answer.from = at;
    answer.to = at + ahead;
    const auto units = lookAtAll(state, at);
    answer.lapses = lapsesOf(state, units, answer.to);
    const GroupForecast forecast(state, answer, units);
    for (const Group& group : state.rulebook->groups) {
        if (group.par) answer.groups.push_back(forecast.of(group));
    }
    return answer;
}

}  // namespace rules
