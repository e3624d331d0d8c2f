// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The entries on one unit; see history.h.
#include "report/history.h"

#include "report/confirmations.h"
#include "rules/attempts.h"
#include "rules/people.h"
#include "words/finding_words.h"
#include "words/record_details.h"
#include "words/record_remarks.h"
#include "words/record_words.h"
#include "words/shown.h"

#include <map>

namespace report {

namespace {

using words::Context;

constexpr std::int64_t minute = 60'000;

std::string timeAndDay(const Context& context, logbook::Instant instant) {
    return context.times().full(instant);
}

std::string strikeText(const Context& context, const logbook::Record& strike) {
    const auto* body = std::get_if<logbook::body::Strike>(&strike.body);
    return context.words.say("history.struck",
                             {{"person", words::personName(context, strike.by)},
                              {"time", context.times().dated(strike.entered)},
                              {"reason", body != nullptr ? body->reason : ""}});
}

std::string enteredText(const Context& context, const logbook::Record& record) {
    const auto later = record.entered - record.at;
    if (later.ms < minute) return "";
    return context.words.say("history.later",
                             {{"duration", words::duration(context.words, later)}});
}

using Details = std::vector<std::pair<std::string, std::string>>;

void addPerson(const Context& context, Details& details, std::string_view label,
               const std::optional<std::string>& person) {
    if (person)
        details.emplace_back(context.words.say(label), words::personName(context, *person));
}

void addText(const Context& context, Details& details, std::string_view label,
             const std::optional<std::string>& text) {
    if (text) details.emplace_back(context.words.say(label), words::shown(*text));
}

// Who stands for it, where nobody had signed in.
std::string signedText(const Context& context, const logbook::Record* confirmation) {
    return confirmation != nullptr
               ? words::capitalized(words::confirmedBy(context, *confirmation))
               : context.words.say("history.not_signed");
}

Details detailsOf(const Context& context, const logbook::Record& record) {
    const auto& words = context.words;
    Details details{{words.say("history.at"), timeAndDay(context, record.at)},
                    {words.say("history.entered"), timeAndDay(context, record.entered)}};
    for (auto& detail : words::recordDetails(context, record)) details.push_back(std::move(detail));
    addPerson(context, details, "history.by", record.by);
    addPerson(context, details, "history.done_by", record.doneBy);
    addPerson(context, details, "history.witness", record.witness);
    if (!record.confirmed)
        details.emplace_back(words.say("history.signed"),
                             signedText(context, context.confirmation(record.name)));
    addText(context, details, "history.form", record.form);
    addText(context, details, "history.moved_from", record.movedFrom);
    details.emplace_back(words.say("history.record"), logbook::toText(record.name));
    return details;
}

// With what was typed with it: the list shows nothing else of it.
std::string saysOf(const Context& context, const logbook::Record& record) {
    return words::withTypedText(context, record, words::recordLine(context, record));
}

// Under whose name it stands, unless they say that it was somebody else.
std::string whoOf(const Context& context, const logbook::Record& record, bool denied) {
    return denied ? words::deniedBy(context, words::doerOf(record))
                  : words::personName(context, words::doerOf(record));
}

HistoryLine lineOf(const Context& context, const logbook::Record& record, bool denied) {
    const auto times = context.times();
    HistoryLine line{record.name, record.at, sortOf(record.kind())};
    line.day = times.dayWithYear(context.state.rulebook->zone->dayOf(record.at));
    line.clock = times.clock(record.at);
    line.says = saysOf(context, record);
    line.who = whoOf(context, record, denied);
    line.entered = enteredText(context, record);
    line.batch = record.batch;
    line.details = detailsOf(context, record);
    if (denied)
        line.details.emplace_back(context.words.say("history.denied"), line.who);
    return line;
}

// A batch is one of one station.
using BatchKey = std::pair<std::string, std::string>;

using Reasons = std::map<logbook::RecordName, std::string>;

// Why attempts at checks did not count, each by the state in which it was made.
Reasons uncountedAttempts(const Context& context, const rules::Log& log,
                          const HistoryQuestion& question) {
    Reasons reasons;
    const auto note = [&](const rules::UncountedAttempt& attempt) {
        auto& told = reasons[attempt.record.name];
        if (attempt.discounted == nullptr) {
            told = context.words.say("history.no_effect");
            return;
        }
        const Context then{context.words, attempt.state,
                           attempt.state.device(question.device), attempt.record.at, {},
                           [&](const auto& name) {
                               return name == attempt.record.name ? &attempt.record
                                                                  : context.record(name);
                           }};
        const auto& check = std::get<logbook::body::Check>(attempt.record.body).check;
        std::vector<std::string> clauses;
        for (const auto& reason : attempt.discounted->reasons)
            clauses.push_back(
                words::discountReason(then, check, *attempt.discounted, reason).says);
        told = context.words.all(clauses);
    };
    rules::forEachUncounted(log, {question.device, question.asked, question.knownAt}, note);
    return reasons;
}

void addUncounted(const Context& context, const Reasons& reasons, HistoryLine& line) {
    const auto found = reasons.find(line.record);
    if (found == reasons.end()) return;
    line.uncounted = context.words.say("history.uncounted", {{"reasons", found->second}});
    line.details.emplace_back(context.words.say("history.uncounted_label"), found->second);
}

// What a person knows of its batch: that there are others.
void addSession(const Context& context, HistoryLine& line) {
    if (line.inBatch < 2) return;
    line.details.emplace_back(
        context.words.say("history.batch"),
        context.words.say("history.in_session", {{"count", std::to_string(line.inBatch)}}));
}

}  // namespace

EntrySort sortOf(logbook::Kind kind) {
    using enum logbook::Kind;
    switch (kind) {
        case Check: return EntrySort::Check;
        case Group: case Power: case Fit: case Remove: case Reprocess: case Software:
            return EntrySort::SetUp;
        case UseStart: case UsePause: case UseResume: case UseEnd: case Soil: case Move:
        case Sighted:
            return EntrySort::Use;
        case Alarm: case Fault: case Clear: case Withdraw: case Release: case Waive:
        case NoticeDone: case Service:
            return EntrySort::Trouble;
        default: return EntrySort::Other;
    }
}

History makeHistory(const Context& asking, const rules::Log& log,
                    const HistoryQuestion& question) {
    auto context = asking;
    context.confirmations = confirmationsIn(log, {question.asked, question.knownAt});
    History history;
    std::map<BatchKey, int> batches;
    const auto uncounted = uncountedAttempts(context, log, question);
    const auto denied = rules::disowned(log, rules::unconfirmed(log));
    const auto number = log.deviceNumber(question.device);
    for (std::size_t index = log.records().size(); number && index-- > 0;) {
        const auto& record = log.records()[index];
        if (log.deviceNumber(index) != *number || record.at > question.asked ||
            record.entered > question.knownAt)
            continue;
        const bool stands = log.takesPart(index, question.knownAt);
        if (record.batch && stands) ++batches[{record.name.station, *record.batch}];
        if (history.lines.size() == question.most) {
            ++history.older;
            continue;
        }
        history.lines.push_back(lineOf(context, record, denied.contains(index)));
        auto& line = history.lines.back();
        addUncounted(context, uncounted, line);
        line.struck = !stands;
        const auto* strike = stands ? nullptr : log.struckBy(index);
        if (strike != nullptr && strike->entered <= question.knownAt)
            line.strike = strikeText(context, *strike);
    }
    for (auto& line : history.lines) {
        if (line.batch) line.inBatch = batches[{line.record.station, *line.batch}];
        addSession(context, line);
    }
    return history;
}

}  // namespace report
