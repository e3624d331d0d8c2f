// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Editions read once, strikes judged by the people before them; see groundwork.h.
#include "rules/groundwork.h"

#include "rules/authority.h"

#include <algorithm>
#include <bit>

namespace rules {
namespace {

using logbook::Kind;
using logbook::Record;

// None of these is ever struck, so what a person may do never depends on a strike.
bool cannotBeStruck(Kind kind) {
    return kind == Kind::Adopt || kind == Kind::Person || kind == Kind::Strike;
}

bool founds(const Record& record) {
    return record.kind() == Kind::Adopt || record.kind() == Kind::Person;
}

}  // namespace

std::size_t Groundwork::HashOfName::operator()(const RecordName& name) const {
    constexpr std::size_t spread = 0x9e3779b97f4a7c15U;
    const std::size_t mixed = std::hash<std::string>{}(name.station) ^
                              (static_cast<std::size_t>(name.seq) * spread);
    return mixed ^ (mixed >> 32);
}

// Those of records that a station wrote one after the other, and that are mostly read so, lie side
// by side.
std::size_t Groundwork::bitOf(const RecordName& name) const {
    const auto hash = std::hash<std::string>{}(name.station) + static_cast<std::size_t>(name.seq);
    return hash & (m_named.size() - 1);
}

bool Groundwork::mayBeNamed(const RecordName& name) const {
    return !m_named.empty() && m_named[bitOf(name)];
}

void Groundwork::noteNamed(const RecordName& name) {
    constexpr std::size_t bitsOfStrike = 16;
    if (m_named.size() < m_strikes.size() * bitsOfStrike) {
        m_named.assign(std::bit_ceil(2 * m_strikes.size() * bitsOfStrike), false);
        for (const auto& [named, strikes] : m_strikes) m_named[bitOf(named)] = true;
    }
    m_named[bitOf(name)] = true;
}

Groundwork::Groundwork(std::vector<Record> founding, const ZoneSource& zones)
    : m_founding(std::move(founding)) {
    std::erase_if(m_founding, [](const Record& record) { return !founds(record); });
    std::sort(m_founding.begin(), m_founding.end(),
              [](const Record& a, const Record& b) { return readingOrder(a, b) < 0; });
    readEditions(zones);
    m_people.rulebook = firstEdition();
}

void Groundwork::readEditions(const ZoneSource& zones) {
    for (const Record& record : m_founding) {
        const auto* adopt = std::get_if<logbook::body::Adopt>(&record.body);
        if (!adopt) continue;
        m_adoptions.push_back({refOf(record), nullptr});
        RulebookReading reading = readRulebook(adopt->text, zones);
        if (!reading.rulebook) {
            m_faults.push_back(
                {LogFault::Code::BadRulebook, record.name, std::move(reading.faults)});
        } else if (reading.rulebook->edition != adopt->edition) {
            m_faults.push_back({LogFault::Code::WrongEdition, record.name, {}});
        } else {
            m_adoptions.back().edition = reading.rulebook;
            m_editions.emplace(record.name, std::move(reading.rulebook));
        }
    }
}

std::shared_ptr<const Rulebook> Groundwork::firstEdition() const {
    const auto first = std::find_if(m_adoptions.begin(), m_adoptions.end(),
                                    [](const Adoption& each) { return each.edition != nullptr; });
    return first == m_adoptions.end() ? nullptr : first->edition;
}

bool Groundwork::hasEdition(Instant at, Instant knownAt) const {
    return std::any_of(m_adoptions.begin(), m_adoptions.end(), [&](const Adoption& each) {
        return each.edition && each.record.at <= at && each.record.entered <= knownAt;
    });
}

// A strike is judged by the persons and the edition before it, whatever instant is asked for; both
// are timely, so what is known of them then does not depend on the knowledge asked for either.
void Groundwork::addStrike(const Record& strike) {
    const auto* body = std::get_if<logbook::body::Strike>(&strike.body);
    if (!body || !m_people.rulebook) return;
    foldPeopleBefore(refOf(strike));
    auto& strikes = m_strikes[body->target];
    const Strike added{refOf(strike), strike.by, standingOf(strike.by)};
    const auto place = std::upper_bound(
        strikes.begin(), strikes.end(), added, [](const Strike& a, const Strike& b) {
            if (a.record.entered != b.record.entered) return a.record.entered < b.record.entered;
            return a.record < b.record;
        });
    strikes.insert(place, added);
    noteNamed(body->target);
}

void Groundwork::foldPeopleBefore(const RecordRef& place) {
    if (m_folded > 0 && place < refOf(m_founding[m_folded - 1])) {
        m_people = {};
        m_people.rulebook = firstEdition();
        m_folded = 0;
        m_writers.clear();
    }
    for (; m_folded < m_founding.size() && refOf(m_founding[m_folded]) < place; ++m_folded) {
        fold(m_people, m_founding[m_folded], m_editions);
        m_writers.clear();
    }
}

std::shared_ptr<const State> Groundwork::standingOf(const std::string& writer) {
    auto& standing = m_writers[writer];
    if (!standing) {
        State state;
        state.rulebook = m_people.rulebook;
        state.adopted = m_people.adopted;
        const auto known = m_people.persons.find(writer);
        if (known != m_people.persons.end()) state.persons.insert(*known);
        standing = std::make_shared<const State>(std::move(state));
    }
    return standing;
}

std::optional<RecordRef> Groundwork::struckBy(const Record& record) const {
    if (!mayBeNamed(record.name)) return std::nullopt;
    const auto found = m_strikes.find(record.name);
    if (found == m_strikes.end() || cannotBeStruck(record.kind())) return std::nullopt;
    for (const Strike& strike : found->second) {
        const Striker striker{strike.by, strike.record.at};
        if (rules::mayStrike(*strike.people, striker, &record).allowed) return strike.record;
    }
    return std::nullopt;
}

bool Groundwork::takesPart(const Record& record, Instant knownAt) const {
    if (record.entered > knownAt) return false;
    const auto strike = struckBy(record);
    return !strike || strike->entered > knownAt;
}

bool Groundwork::mayStrike(const Record& strike, const Record* target) const {
    const auto* body = std::get_if<logbook::body::Strike>(&strike.body);
    const auto found = body ? m_strikes.find(body->target) : m_strikes.end();
    if (found == m_strikes.end()) return true;
    const auto& strikes = found->second;
    const auto added =
        std::find_if(strikes.begin(), strikes.end(),
                     [&](const Strike& each) { return each.record.name == strike.name; });
    return added == strikes.end() ||
           rules::mayStrike(*added->people, {added->by, added->record.at}, target).allowed;
}

Groundwork Groundwork::under(const std::shared_ptr<const Rulebook>& edition) const {
    Groundwork other = *this;
    for (auto& [name, rulebook] : other.m_editions) rulebook = edition;
    for (Adoption& adoption : other.m_adoptions) {
        if (adoption.edition) adoption.edition = edition;
    }
    return other;
}

}  // namespace rules
