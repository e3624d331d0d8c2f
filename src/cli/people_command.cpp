// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// people: who is known in the log, and how each signs in at this station.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "report/layout.h"
#include "station/people_list.h"
#include "words/as_word.h"
#include "words/shown.h"

#include <algorithm>

namespace cli {

namespace {

namespace json = logbook::json;
using station::ListedPerson;
using station::PinHere;
using station::Result;

std::string untilOf(const ListedPerson& person, const words::Words& words) {
    if (!person.until) {
        return words.say(person.isKnown ? "people_list.no_end" : "people_list.not_in_log");
    }
    return person.isKnown ? person.untilText
                          : words.say("people_list.left", {{"day", person.untilText}});
}

std::string pinOf(const ListedPerson& person, logbook::Instant now, const words::Words& words) {
    if (person.pin == PinHere::None) {
        return words.say("people_list.no");
    }
    if (person.pin == PinHere::Locked) {
        return words.say("people_list.locked");
    }
    if (person.waitsUntil) {
        const auto seconds = ((*person.waitsUntil - now).ms + 999) / 1000;
        return words.say("people_list.waits", {{"count", std::to_string(person.wrongPins)},
                                               {"wait", std::to_string(seconds)}});
    }
    return words.say("people_list.yes");
}

std::string tableOf(const station::PeopleList& list, logbook::Instant now,
                    const words::Words& words) {
    report::Table table({words.say("people_list.key"), words.say("people_list.name"),
                         words.say("people_list.roles"), words.say("people_list.until"),
                         words.say("people_list.pin"), words.say("people_list.badge")});
    for (const auto& person : list.people) {
        table.add({words::shown(person.person), words::shown(person.name),
                   words.all(person.roleLabels), untilOf(person, words),
                   pinOf(person, now, words),
                   words.say(person.hasBadge ? "people_list.yes" : "people_list.no")});
    }
    return table.text(report::usableWidth({}));
}

std::string textOf(const Call& call, const station::PeopleList& list, logbook::Instant now,
                   const words::Words& words) {
    const words::Gaps logbook{{"logbook", words::asWord(call.wanted(shared::logbook.name))}};
    auto text = list.people.empty()
                    ? words.say("people_list.nobody") + "\n"
                    : words.say("people_list.title") + "\n\n" + tableOf(list, now, words);
    std::string notes;
    if (list.unopened) {
        notes += words.say("people_list.unopened", logbook) + "\n";
    }
    if (std::ranges::find(list.people, PinHere::Locked, &ListedPerson::pin) != list.people.end()) {
        notes += words.say("people_list.unlock", logbook) + "\n";
    }
    return notes.empty() ? text : text + "\n" + notes;
}

json::Value toJson(const ListedPerson& person) {
    json::Array roles;
    for (const auto& role : person.roles) {
        roles.emplace_back(role);
    }
    const char* pin = person.pin == PinHere::None ? "none"
                      : person.pin == PinHere::Set ? "set"
                                                   : "locked";
    return json::Object{
        {"person", person.person},
        {"name", person.name.empty() ? json::Value() : json::Value(person.name)},
        {"roles", std::move(roles)},
        {"until", person.until ? json::Value(logbook::toText(*person.until)) : json::Value()},
        {"known", person.isKnown},
        {"manager", person.isManager},
        {"pin", pin},
        {"waits_until", person.waitsUntil ? json::Value(toText(*person.waitsUntil))
                                          : json::Value()},
        {"badge", person.hasBadge}};
}

class PeopleCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "people",
            "List who is known in the log, and whether each has a PIN and a badge here.",
            {shared::logbook},
            {shared::json, shared::trustLocks},
            "Those whose last day is over are listed too. PINs and badges are of this station; at "
            "another the same person may have others or none. No PIN and no badge is shown, and "
            "nobody has to sign in to look.",
            "airmuster-cli people ward.logbook"};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto list = station::peopleOf(surroundings, logbookOf(call));
        if (!list) {
            return tl::unexpected(list.error());
        }
        const auto& words = surroundings.words;
        if (!call.has(shared::json.name)) {
            return Answer{ExitStatus::Done,
                          textOf(call, *list, surroundings.clock.now(), words),
                          doubtRemarks(list->doubts, words)};
        }
        json::Array people;
        for (const auto& person : list->people) {
            people.push_back(toJson(person));
        }
        return Answer{ExitStatus::Done, jsonText(people), doubtRemarks(list->doubts, words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makePeopleCommand() {
    return std::make_unique<PeopleCommand>();
}

}  // namespace cli
