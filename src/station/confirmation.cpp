// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking for unconfirmed entries and confirming them; see confirmation.h.
#include "station/confirmation.h"

#include "rules/people.h"
#include "station/signed_act.h"
#include "station/standing.h"
#include "station/waiting_log.h"
#include "words/record_remarks.h"
#include "words/record_words.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

using logbook::Record;

constexpr std::size_t mostNamed = 100;

// All of them lack a signature, so that no line says it.
Unconfirmed entryOf(const words::Context& context, Record record) {
    record.confirmed = true;
    Unconfirmed entry{record.name, record.at};
    entry.device = record.device;
    entry.canBeConfirmed = !record.device.empty();
    entry.when = context.times().time(record.at);
    entry.what = words::recordLine(context, record);
    entry.line = words::placedLine(context, record);
    for (auto* text : {&entry.what, &entry.line}) {
        *text = words::withTypedText(context, record, *text);
    }
    return entry;
}

// Of one person, or of all.
std::vector<Unconfirmed> listOf(const Surroundings& surroundings, const WholeLog& log,
                                const Gate& gate, const std::optional<std::string>& person) {
    std::vector<Unconfirmed> list;
    if (gate.people() == nullptr) {
        return list;
    }
    const words::Context context{surroundings.words, *gate.people(), nullptr, gate.now(), {}, {}};
    const auto waiting = rules::unconfirmed(log.log);
    const auto disowned = rules::disowned(log.log, waiting);
    for (const auto index : waiting) {
        const auto& record = log.log.records()[index];
        const auto& by = rules::confirmerOf(log.log, record);
        if (person && by != *person) continue;
        auto entry = entryOf(context, record);
        entry.person = by;
        entry.name = gate.nameOf(by);
        entry.isKnown = gate.knows(by);
        entry.isDisowned = disowned.contains(index);
        if (entry.isDisowned)
            entry.line = surroundings.words.say("confirm.disowned",
                                                {{"line", entry.line}, {"person", entry.name}});
        list.push_back(std::move(entry));
    }
    return list;
}

// Of the person's entries those that they confirm now.
Result<std::vector<Unconfirmed>> choose(const OpenLog& open, const Confirmation& confirmation,
                                        const std::string& person) {
    const auto& names = confirmation.records;
    auto own = listOf(open.surroundings(), open.log(), open.gate(), person);
    std::erase_if(own, [](const Unconfirmed& entry) { return !entry.canBeConfirmed; });
    if (names.empty()) {
        std::erase_if(own, [](const Unconfirmed& entry) { return entry.isDisowned; });
        return own;
    }
    std::vector<Unconfirmed> chosen;
    for (const auto& name : names) {
        const auto found = std::ranges::find(own, name, &Unconfirmed::record);
        if (found == own.end()) {
            return tl::unexpected(problemOf(open.surroundings().words, "confirm.not_yours",
                                            {{"record", toText(name)},
                                             {"person", open.gate().nameOf(person)}}));
        }
        const bool isSaid = !confirmation.isMine && found->isDisowned;
        if (!isSaid &&
            std::ranges::find(chosen, name, &Unconfirmed::record) == chosen.end()) {
            chosen.push_back(*found);
        }
    }
    return chosen;
}

std::vector<Intended> reviewsOf(const std::vector<Unconfirmed>& chosen,
                                const Confirmation& confirmation) {
    const auto word = confirmation.isMine ? rules::confirmedWord : rules::notMineWord;
    std::vector<Intended> reviews;
    for (const auto& entry : chosen) {
        reviews.push_back({{confirmation.by, "review", entry.device}});
        reviews.back().entry.body = {{"target", toText(entry.record)},
                                     {"disposition", std::string(word)},
                                     {"text", ""}};
    }
    return reviews;
}

// Without an edition nobody is known, and no line can be made of an entry.
Problem notTold(const Surroundings& surroundings, const WholeLog& log) {
    const auto& words = surroundings.words;
    auto problem = problemOf(words, "confirm.not_told", {}, Problem::Weight::Logbook);
    problem.details = doubtsOf(surroundings, log);
    std::vector<std::string> names;
    for (const auto index : rules::unconfirmed(log.log)) {
        if (names.size() == mostNamed) {
            names.emplace_back("…");
            break;
        }
        names.push_back(toText(log.log.records()[index].name));
    }
    if (!names.empty()) {
        problem.details.push_back(words.say("confirm.unsigned", {{"records", words.all(names)}}));
    }
    return problem;
}

}  // namespace

Result<Waiting> waiting(const Surroundings& surroundings, const LogbookFile& file,
                        const std::optional<std::string>& who) {
    const auto log = readWholeLog(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    const Gate gate(surroundings, file, *log);
    if (gate.people() == nullptr && !doubtsOf(surroundings, *log).empty()) {
        return tl::unexpected(notTold(surroundings, *log));
    }
    std::optional<std::string> person;
    if (who) {
        const auto found = gate.personOf(*who);
        if (!found) {
            return tl::unexpected(found.error());
        }
        person = *found;
    }
    return Waiting{listOf(surroundings, *log, gate, person), doubtsOf(surroundings, *log)};
}

Result<std::vector<Unconfirmed>> unconfirmed(const Surroundings& surroundings,
                                             const LogbookFile& file,
                                             const std::optional<std::string>& who) {
    return waiting(surroundings, file, who).map([](Waiting&& all) {
        return std::move(all.entries);
    });
}

std::vector<Unconfirmed> waitingFor(const Surroundings& surroundings, const LogbookFile& file,
                                    const WholeLog& log, const std::string& person) {
    auto waiting = listOf(surroundings, log, Gate(surroundings, file, log), person);
    std::erase_if(waiting, [](const Unconfirmed& entry) {
        return !entry.canBeConfirmed || entry.isDisowned;
    });
    return waiting;
}

Result<std::vector<Unconfirmed>> confirm(const Surroundings& surroundings,
                                         const LogbookFile& file,
                                         const Confirmation& confirmation) {
    const auto open = OpenLog::open(surroundings, file, [&](const store::Logbook& logbook) {
        return recordsOfWaiting(surroundings, logbook)
            .map([&](std::optional<std::vector<logbook::RecordName>>&& waiting) {
                return waiting ? Needed{{}, *std::move(waiting), surroundings.clock.now()}
                               : Needed{.isAll = true};
            });
    });
    if (!open) {
        return tl::unexpected(open.error());
    }
    const auto person = (*open)->gate().personOf(confirmation.by.who);
    if (!person) {
        return tl::unexpected(person.error());
    }
    std::vector<Unconfirmed> chosen;
    SignedAct act(**open, [&](const OpenLog& log) -> Result<std::vector<Intended>> {
        auto found = choose(log, confirmation, *person);
        if (!found) {
            return tl::unexpected(std::move(found.error()));
        }
        chosen = std::move(*found);
        return reviewsOf(chosen, confirmation);
    });
    const auto kept = act.write(confirmation.by);
    if (!kept) {
        return tl::unexpected(kept.error());
    }
    return chosen;
}

}  // namespace station
