// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who may still say who holds which role; see managers.h.
#include "station/managers.h"

#include "rules/authority.h"
#include "rules/people.h"
#include "station/question.h"
#include "words/context.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <set>

namespace station {

namespace {

using logbook::Kind;
using logbook::Record;

class ManagerCheck {
public:
    ManagerCheck(const Surroundings& surroundings, const rules::Log& log, const Record& record)
        : m_words(surroundings.words), m_record(record),
          m_before(rules::peopleAt(log, record.at)), m_after(m_before) {
        if (const auto* adopt = std::get_if<logbook::body::Adopt>(&record.body)) {
            m_after.rulebook = rules::readRulebook(adopt->text, surroundings.zones).rulebook;
        } else {
            (void)rules::fold(m_after, record, log.editions());
        }
    }

    Result<std::vector<std::string>> run() {
        if (m_after.rulebook == nullptr) {
            return std::vector<std::string>{};
        }
        const auto left = rules::managers(m_after, m_record.at);
        if (left.empty() && !rules::managers(m_before, m_record.at).empty()) {
            return tl::unexpected(refusal());
        }
        std::vector<std::string> remarks;
        addLastDay(left, remarks);
        addUnknownRoles(remarks);
        return remarks;
    }

private:
    [[nodiscard]] words::Context context() const {
        return {m_words, m_after, nullptr, m_record.at, {}, {}};
    }

    [[nodiscard]] Problem refusal() const {
        const auto roles = words::rolesFor(context(), Kind::Person);
        if (m_record.kind() == Kind::Adopt) {
            return problemOf(m_words, "safeguard.edition_without_manager",
                             {{"roles", words::roleList(context(), roles)}});
        }
        if (roles.empty()) {
            return problemOf(m_words, "safeguard.nobody_known");
        }
        return problemOf(m_words, "safeguard.no_manager",
                         {{"roles", words::roleList(context(), roles)}});
    }

    // Told as long as nobody's role goes on without an end.
    void addLastDay(const std::vector<std::string>& managers,
                    std::vector<std::string>& remarks) const {
        std::optional<logbook::Day> last;
        for (const auto& manager : managers) {
            const auto& until = m_after.persons.at(manager).person.until;
            if (!until) {
                return;
            }
            last = std::max(last.value_or(*until), *until);
        }
        if (last) {
            remarks.push_back(m_words.say(
                "safeguard.last_day", {{"day", context().times().dayWithYear(*last)}}));
        }
    }

    void addUnknownRoles(std::vector<std::string>& remarks) const {
        const auto* person = std::get_if<logbook::body::Person>(&m_record.body);
        if (person == nullptr) {
            return;
        }
        const auto named = rules::rolesNamed(*m_after.rulebook);
        for (const auto& role : person->roles) {
            if (std::ranges::find(named, role) == named.end()) {
                remarks.push_back(m_words.say(
                    "safeguard.unknown_role",
                    {{"role", role},
                     {"roles", named.empty() ? m_words.say("plain.nothing")
                                             : m_words.anyOf(named)}}));
            }
        }
    }

    const words::Words& m_words;
    const Record& m_record;
    rules::State m_before;
    rules::State m_after;
};

bool isOfPeople(const Record& record) {
    return record.kind() == Kind::Person || record.kind() == Kind::Adopt;
}

// Adoptions and persons alone: nothing else bears on who may enter persons.
std::vector<Record> peopleOf(const std::vector<Record>& records) {
    std::vector<Record> people;
    std::ranges::copy_if(records, std::back_inserter(people), isOfPeople);
    return people;
}

class PeopleSettling {
public:
    PeopleSettling(const Surroundings& surroundings, const PeopleBrought& brought)
        : m_surroundings(surroundings), m_words(surroundings.words), m_brought(brought) {
        for (const auto& record : peopleOf(brought.records)) {
            const auto head = brought.log.heads.find(record.name.station);
            const auto known = head == brought.log.heads.end() ? 0 : head->second.head.seq;
            if (record.name.seq > known) {
                m_new.push_back(record);
            }
        }
    }

    Result<std::vector<std::string>> run() {
        if (m_new.empty() || !m_brought.log.log.firstEdition()) {
            return std::vector<std::string>{};
        }
        auto together = peopleOf(m_brought.log.log.records());
        std::ranges::copy(m_new, std::back_inserter(together));
        const rules::Log after(std::move(together), m_surroundings.zones);
        if (changesFirst(after)) {
            return std::vector<std::string>{};
        }
        const auto change = changeSentence(after);
        const bool someoneMay =
            !rules::managers(rules::peopleAt(m_brought.log.log, m_brought.now), m_brought.now)
                 .empty();
        if (someoneMay && !m_brought.byManager) {
            if (const auto station = stranger()) {
                return refused("safeguard.new_to_people", {{"station", *station}});
            }
            if (!change.empty()) {
                return refused("safeguard.change_by_other", {{"change", change}});
            }
        }
        if (change.empty()) {
            return std::vector<std::string>{};
        }
        if (!m_brought.changeIsMeant &&
            !saysYes(m_surroundings, "safeguard.ask_change", {{"change", change}})) {
            return refused("safeguard.change_not_meant", {{"change", change}});
        }
        return std::vector<std::string>{change};
    }

private:
    [[nodiscard]] tl::unexpected<Problem> refused(std::string_view code,
                                                  const words::Gaps& gaps) const {
        return tl::unexpected(problemOf(m_words, code, gaps));
    }

    // Which edition or person came first: the logbook takes in no such records.
    [[nodiscard]] bool changesFirst(const rules::Log& after) const {
        return std::ranges::any_of(std::array{Kind::Adopt, Kind::Person}, [&](Kind kind) {
            const auto first = std::ranges::find(m_brought.log.log.records(), kind, &Record::kind);
            const auto then = std::ranges::find(after.records(), kind, &Record::kind);
            return first != m_brought.log.log.records().end() && then->name != first->name;
        });
    }

    // A note that came before makes no station known for its persons and editions.
    [[nodiscard]] std::optional<std::string> stranger() const {
        std::set<std::string> stations;
        for (const auto& record : m_brought.log.log.records()) {
            if (isOfPeople(record)) {
                stations.insert(record.name.station);
            }
        }
        const auto found = std::ranges::find_if(m_new, [&](const Record& record) {
            return !stations.contains(record.name.station);
        });
        return found == m_new.end() ? std::nullopt : std::optional(found->name.station);
    }

    // Of now, and of when the last of them begins to count.
    [[nodiscard]] std::string changeSentence(const rules::Log& after) const {
        auto last = m_brought.now;
        for (const auto& record : m_new) {
            last = std::max(last, record.at);
        }
        for (const auto at : {m_brought.now, last}) {
            auto sentence = changeAt(after, at);
            if (!sentence.empty()) {
                return sentence;
            }
        }
        return {};
    }

    [[nodiscard]] std::string changeAt(const rules::Log& after, logbook::Instant at) const {
        const auto peopleBefore = rules::peopleAt(m_brought.log.log, at);
        const auto peopleAfter = rules::peopleAt(after, at);
        const auto before = rules::managers(peopleBefore, at);
        const auto now = rules::managers(peopleAfter, at);
        std::vector<std::string> sentences;
        addNames(sentences, "safeguard.gains", peopleAfter, now, before);
        addNames(sentences, "safeguard.loses", peopleBefore, before, now);
        if (!sentences.empty() && now.empty()) {
            sentences.push_back(m_words.say("safeguard.nobody_may"));
        }
        std::string text;
        for (const auto& sentence : sentences) {
            text += (text.empty() ? "" : " ") + sentence;
        }
        return text;
    }

    // Of those in `some` who are not in `others`; both are sorted.
    void addNames(std::vector<std::string>& sentences, std::string_view key,
                  const rules::State& people, const std::vector<std::string>& some,
                  const std::vector<std::string>& others) const {
        std::vector<std::string> keys;
        std::ranges::set_difference(some, others, std::back_inserter(keys));
        const words::Context context{m_words, people, nullptr, m_brought.now, {}, {}};
        for (auto& person : keys) {
            const auto name = words::personName(context, person);
            person = name == person ? person : name + " (" + person + ")";
        }
        if (!keys.empty()) {
            sentences.push_back(m_words.say(key, {{"people", m_words.all(keys)}}));
        }
    }

    const Surroundings& m_surroundings;
    const words::Words& m_words;
    const PeopleBrought& m_brought;
    std::vector<Record> m_new;
};

}  // namespace

Result<std::vector<std::string>> checkManagers(const Surroundings& surroundings,
                                               const rules::Log& log, const Record& record) {
    if (!isOfPeople(record) || !log.firstEdition()) {
        return std::vector<std::string>{};
    }
    return ManagerCheck(surroundings, log, record).run();
}

Result<std::vector<std::string>> settlePeople(const Surroundings& surroundings,
                                              const PeopleBrought& brought) {
    return PeopleSettling(surroundings, brought).run();
}

}  // namespace station
