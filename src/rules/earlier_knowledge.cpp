// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A pass by earlier knowledge, mended where knowledge moves on; see earlier_knowledge.h.
#include "rules/earlier_knowledge.h"

#include "rules/same_state.h"

#include <algorithm>

namespace rules {
namespace {

using logbook::Kind;

// So few that in a stretch few devices are tied to each other, and so many that a device is not
// copied for every record on it.
std::size_t recordsBetweenPlaces(const Log& log) {
    constexpr std::size_t few = 64;
    return std::max(few, 2 * log.deviceCount());
}

// Puts in `target` what `source` holds under the key; whether that is another.
template <class Map, class Key>
bool put(const Map& source, Map& target, const Key& key) {
    const auto is = source.find(key);
    const auto was = target.find(key);
    if (is == source.end()) {
        if (was == target.end()) return false;
        target.erase(was);
        return true;
    }
    if (was == target.end()) {
        target.insert(*is);
        return true;
    }
    if (is->second.get() == was->second.get()) return false;
    if (same(*is->second, *was->second)) return false;
    was->second = is->second;
    return true;
}

void putDepartment(const State& source, State& target) {
    target.rulebook = source.rulebook;
    target.adopted = source.adopted;
    target.persons = source.persons;
    target.notices = source.notices;
}

}  // namespace

EarlierKnowledge::EarlierKnowledge(const Log& log)
    : m_log(log), m_between(recordsBetweenPlaces(log)), m_ties(log) {
    m_state.rulebook = log.firstEdition();
    m_turns.reserve(log.records().size());
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        m_turns.push_back({log.records()[index].entered, index});
        if (const auto* strike = log.struckBy(index)) m_turns.push_back({strike->entered, index});
    }
    std::sort(m_turns.begin(), m_turns.end(),
              [](const Turn& a, const Turn& b) { return a.at < b.at; });
}

const State& EarlierKnowledge::before(std::size_t index, Instant knownAt) {
    if (m_index > 0 && knownAt != m_knownAt) correct(turned(knownAt), knownAt);
    m_knownAt = knownAt;
    walk(index, knownAt);
    return m_state;
}

// The records before the place reached that take part by only one of both knowledges, in order.
std::vector<std::size_t> EarlierKnowledge::turned(Instant knownAt) const {
    const auto after = [](Instant at, const Turn& turn) { return at < turn.at; };
    const auto [from, to] = std::minmax(m_knownAt, knownAt);
    const auto first = std::upper_bound(m_turns.begin(), m_turns.end(), from, after);
    const auto end = std::upper_bound(first, m_turns.end(), to, after);
    std::vector<std::size_t> records;
    for (auto turn = first; turn != end; ++turn) {
        if (turn->record >= m_index) continue;
        if (m_log.takesPart(turn->record, m_knownAt) == m_log.takesPart(turn->record, knownAt)) {
            continue;
        }
        records.push_back(turn->record);
    }
    std::sort(records.begin(), records.end());
    return records;
}

// Folds again from place to place, as long as there is a difference.
void EarlierKnowledge::correct(const std::vector<std::size_t>& records, Instant knownAt) {
    State state;
    Difference difference;
    auto next = records.begin();
    for (std::size_t place = 0; place < m_places.size(); ++place) {
        if (difference.none()) {
            if (next == records.end()) return;
            place = *next / m_between;
            putDepartment(stateAt(place), state);
        }
        const std::size_t end = (place + 1) * m_between;
        for (; next != records.end() && *next < end; ++next) addTurned(*next, difference);
        difference = foldAgain(state, place, difference, knownAt);
    }
}

void EarlierKnowledge::addTurned(std::size_t index, Difference& difference) const {
    const Kind kind = m_log.records()[index].kind();
    m_ties.addNamed(index, difference.tied);
    difference.authority |= kind == Kind::Adopt || kind == Kind::Person;
    difference.notices |= kind == Kind::Notice;
}

// Folds what follows the place, as far as the difference bears on it, up to the next place; how
// that differs now. `state` holds what is department-wide at the place, and then at the next.
EarlierKnowledge::Difference EarlierKnowledge::foldAgain(State& state, std::size_t place,
                                                         const Difference& difference,
                                                         Instant knownAt) {
    const std::size_t first = place * m_between;
    const Stretch stretch{first, std::min(first + m_between, m_index)};
    const State& from = stateAt(place);
    const Tied tied =
        difference.authority ? m_ties.all() : m_ties.tiedTo(difference.tied, from, stretch);
    state.devices.clear();
    state.parts.clear();
    for (const std::uint32_t device : tied.devices) {
        (void)put(from.devices, state.devices, m_ties.serial(device));
    }
    for (const std::uint32_t part : tied.parts) {
        (void)put(from.parts, state.parts, m_ties.part(part));
    }
    for (const std::size_t index : m_ties.recordsOn(tied.devices, stretch)) {
        if (m_log.takesPart(index, knownAt)) fold(state, m_log.records()[index], m_log.editions());
    }
    return store(state, tied, difference, place + 1);
}

// Keeps the state for what is tied, and for the department if that may be another, at the place.
EarlierKnowledge::Difference EarlierKnowledge::store(const State& state, const Tied& tied,
                                                     const Difference& before, std::size_t place) {
    State& kept = stateAt(place);
    Difference after;
    for (const std::uint32_t device : tied.devices) {
        const bool differs = put(state.devices, kept.devices, m_ties.serial(device));
        if (differs) after.tied.devices.push_back(device);
    }
    for (const std::uint32_t part : tied.parts) {
        const bool differs = put(state.parts, kept.parts, m_ties.part(part));
        if (differs) after.tied.parts.push_back(part);
    }
    after.authority = before.authority && !sameAuthority(state, kept);
    after.notices = (before.authority || before.notices) && !sameNotices(state, kept);
    if (after.authority || after.notices) putDepartment(state, kept);
    return after;
}

// That at the place reached comes after the last one kept.
State& EarlierKnowledge::stateAt(std::size_t place) {
    return place < m_places.size() ? m_places[place] : m_state;
}

void EarlierKnowledge::walk(std::size_t index, Instant knownAt) {
    for (; m_index < index; ++m_index) {
        if (m_index % m_between == 0) m_places.push_back(m_state);
        if (!m_log.takesPart(m_index, knownAt)) continue;
        fold(m_state, m_log.records()[m_index], m_log.editions());
    }
}

}  // namespace rules
