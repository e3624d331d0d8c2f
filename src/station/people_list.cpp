// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The list of people; see people_list.h.
#include "station/people_list.h"

#include "station/sign_in.h"
#include "station/standing.h"
#include "words/context.h"

#include <map>

namespace station {

namespace {

class PeopleListing {
public:
    PeopleListing(const Surroundings& surroundings, const Gate& gate)
        : m_surroundings(surroundings), m_gate(gate) {}

    void addKnown() {
        if (m_gate.people() == nullptr) {
            return;
        }
        for (const auto& [key, known] : m_gate.people()->persons) {
            m_people.emplace(key, personOf(known.person));
        }
    }

    void addPin(const store::Credential& pin) {
        auto& listed = listedOf(pin.person);
        listed.pin = pin.locked ? PinHere::Locked : PinHere::Set;
        listed.wrongPins = pin.failures;
        const auto wait = store::waitLeft(pin, m_gate.now());
        if (!pin.locked && wait > logbook::Duration{0}) {
            listed.waitsUntil = m_gate.now() + wait;
        }
    }

    void addBadge(const store::Badge& badge) { listedOf(badge.person).hasBadge = true; }

    [[nodiscard]] std::vector<ListedPerson> inOrder() {
        std::vector<ListedPerson> people;
        for (auto& [key, person] : m_people) {
            people.push_back(std::move(person));
        }
        return people;
    }

private:
    [[nodiscard]] ListedPerson personOf(const logbook::body::Person& person) const {
        const words::Context context{m_surroundings.words, *m_gate.people(), nullptr,
                                     m_gate.now(), {}, {}};
        ListedPerson listed{person.person, person.name, person.roles, {}};
        for (const auto& role : person.roles) {
            listed.roleLabels.push_back(words::roleLabel(context, role));
        }
        if (person.until) {
            listed.until = person.until;
            listed.untilText = context.times().dayWithYear(*person.until);
        }
        listed.isKnown = m_gate.knows(person.person);
        listed.isManager = m_gate.isManager(person.person);
        return listed;
    }

    [[nodiscard]] ListedPerson& listedOf(const std::string& person) {
        const auto found = m_people.find(person);
        if (found != m_people.end()) {
            return found->second;
        }
        auto& listed = m_people[person];
        listed.person = person;
        listed.isKnown = false;
        return listed;
    }

    const Surroundings& m_surroundings;
    const Gate& m_gate;
    std::map<std::string, ListedPerson> m_people;
};

}  // namespace

Result<PeopleList> peopleOf(const Surroundings& surroundings, const LogbookFile& file) {
    const auto log = readWholeLog(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    const Gate gate(surroundings, file, *log);
    const auto pins = gate.credentials().pins();
    if (!pins) {
        return tl::unexpected(problemOf(surroundings.words, pins.error()));
    }
    const auto badges = gate.credentials().badges();
    if (!badges) {
        return tl::unexpected(problemOf(surroundings.words, badges.error()));
    }
    PeopleListing listing(surroundings, gate);
    listing.addKnown();
    for (const auto& pin : *pins) {
        listing.addPin(pin);
    }
    for (const auto& badge : *badges) {
        listing.addBadge(badge);
    }
    return PeopleList{log->ownStation, listing.inOrder(), pins->empty(), log->unread,
                      doubtsOf(surroundings, *log)};
}

}  // namespace station
