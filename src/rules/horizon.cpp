// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Lapses, falls below par and the choice of remedies; see horizon.h.
#include "rules/horizon.h"

#include "rules/matching.h"
#include "rules/remedy.h"

#include <algorithm>
#include <map>
#include <set>
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

// A unit that a group lacks, from an instant on.
struct Lack {
    std::size_t group = 0;  // index in Horizon::groups
    Instant from{};
};

// What each group lacks if nothing is done.
std::vector<Lack> lacksOf(Horizon& answer, const std::vector<Unit>& units) {
    std::vector<Lack> lacks;
    for (std::size_t index = 0; index < answer.groups.size(); ++index) {
        GroupHorizon& group = answer.groups[index];
        for (const Unit& unit : units) {
            const auto& found = unit.assessment;
            if (found.verdict == Verdict::Ready && found.group == group.group) ++group.ready;
        }
        group.least = group.ready;
        for (int missing = group.ready; missing < group.par; ++missing) {
            lacks.push_back({index, answer.from});
        }
        for (const Lapse& lapse : answer.lapses) {
            if (lapse.group != group.group) continue;
            if (--group.least < group.par) lacks.push_back({index, lapse.at});
        }
        if (!lacks.empty() && lacks.back().group == index) {
            const auto first = std::find_if(lacks.begin(), lacks.end(),
                                            [&](const Lack& lack) { return lack.group == index; });
            group.belowFrom = first->from;
        }
    }
    return lacks;
}

class RemedyChoice {
public:
    RemedyChoice(const State& state, Horizon& answer, const std::vector<Unit>& units)
        : m_state(state), m_answer(answer), m_units(units), m_lacks(lacksOf(answer, units)) {
        for (const Lack& lack : m_lacks) m_wanting.insert(lack.group);
    }

    void choose() {
        findRemedies();
        Matching matching{m_units.size(), m_lacks.size(), {}};
        for (std::size_t place = 0; place < m_lacks.size(); ++place) addPairings(matching, place);
        std::map<std::size_t, std::size_t> chosen;  // group by unit
        for (const Pairing& pairing : cheapestMatching(matching)) {
            chosen.emplace(pairing.item, m_lacks[pairing.place].group);
        }
        for (const auto& [unit, group] : chosen) {
            m_answer.groups[group].remedies.push_back(std::move(m_remedies.at({unit, group})));
        }
    }

private:
    using UnitAndGroup = std::pair<std::size_t, std::size_t>;

    // What a unit may be prepared for: its group, or, if none is selected, any of its groups.
    bool mayServe(const Unit& unit, const std::string& group) const {
        if (unit.assessment.group) return unit.assessment.group == group;
        const auto& groups = unit.device->enrolment.groups;
        return std::find(groups.begin(), groups.end(), group) != groups.end();
    }

    bool needsWork(const Unit& unit) const {
        const auto& found = unit.assessment;
        if (found.verdict == Verdict::Ready) {
            return found.readyUntil && *found.readyUntil <= m_answer.to;
        }
        return found.verdict == Verdict::NotReady;
    }

    void findRemedies() {
        for (const std::size_t group : m_wanting) {
            GroupHorizon& forecast = m_answer.groups[group];
            for (std::size_t index = 0; index < m_units.size(); ++index) {
                const Unit& unit = m_units[index];
                if (!needsWork(unit) || !mayServe(unit, forecast.group)) continue;
                const State own = m_state.excerpt({unit.device->serial});
                auto remedy = remedyFor({own, unit.device->serial, forecast.group, m_answer.from,
                                         m_answer.to, unit.assessment.readyUntil});
                if (remedy && remedy->from <= m_answer.to) {
                    m_total += remedy->attended.ms + 1;
                    m_remedies.emplace(UnitAndGroup{index, group}, std::move(*remedy));
                } else if (unit.assessment.group) {
                    forecast.beyond.push_back(unit.device->serial);
                }
            }
        }
    }

    void addPairings(Matching& matching, std::size_t place) const {
        const Lack& lack = m_lacks[place];
        for (std::size_t unit = 0; unit < m_units.size(); ++unit) {
            const auto found = m_remedies.find({unit, lack.group});
            if (found == m_remedies.end()) continue;
            const Remedy& remedy = found->second;
            const bool late = lack.from > m_answer.from && remedy.from > lack.from;
            // One more that is late costs more than any work.
            matching.possible.push_back({unit, place, remedy.attended.ms + (late ? m_total : 0)});
        }
    }

    const State& m_state;
    Horizon& m_answer;
    const std::vector<Unit>& m_units;
    std::vector<Lack> m_lacks;
    std::set<std::size_t> m_wanting;  // groups that lack a unit
    std::map<UnitAndGroup, Remedy> m_remedies;
    std::int64_t m_total = 0;  // more than all remedies ask for
};

// What the group comes to once its remedies are done.
void lookAgain(const Horizon& answer, GroupHorizon& group) {
    std::sort(group.remedies.begin(), group.remedies.end(), [](const auto& a, const auto& b) {
        return std::tie(a.sessions.front().begin, a.device) <
               std::tie(b.sessions.front().begin, b.device);
    });
    std::map<Instant, int> changes{{answer.from, 0}};
    for (const Lapse& lapse : answer.lapses) {
        if (lapse.group == group.group) --changes[lapse.at];
    }
    for (const Remedy& remedy : group.remedies) ++changes[remedy.from];
    int ready = group.ready;
    for (const auto& [at, change] : changes) {
        ready += change;
        if (ready >= group.par) {
            if (!group.heldFrom) group.heldFrom = at;
            group.shortFrom.reset();
        } else {
            group.heldFrom.reset();
            if (!group.shortFrom) group.shortFrom = at;
        }
    }
    group.lacking = std::max(0, group.par - ready);
}

}  // namespace

Horizon horizon(const State& state, Instant at, Duration ahead) {
    Horizon answer;
    answer.from = at;
    answer.to = at + ahead;
    const auto units = lookAtAll(state, at);
    answer.lapses = lapsesOf(state, units, answer.to);
    for (const Group& group : state.rulebook->groups) {
        if (!group.par) continue;
        GroupHorizon forecast;
        forecast.group = group.key;
        forecast.par = *group.par;
        answer.groups.push_back(std::move(forecast));
    }
    RemedyChoice(state, answer, units).choose();
    for (GroupHorizon& group : answer.groups) lookAgain(answer, group);
    return answer;
}

}  // namespace rules
