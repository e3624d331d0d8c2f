// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month as text, for a reader who has to answer for it: period, rate, every exception with its
// evidence, what the log says about itself, and the command that gives the same again.
#include "report/month.h"
#include "words/finding_words.h"
#include "words/record_words.h"
#include "words/shown.h"

namespace report {

namespace {

using words::Context;

// Findings of the month are told from the records: the units have moved on since.
Context contextAt(const Month& month, const words::Words& words, Instant asked) {
    return {words, month.answer.end, nullptr, asked, std::nullopt, month.lookup};
}

std::string heading(const words::Words& words, std::string_view key) {
    return "\n" + words.say(key) + "\n";
}

// What an earlier report of this month lacks. What this one leaves out is not told here, so that
// the same text comes again however much is written down later.
std::string sinceText(const Month& month, const Context& context, std::size_t width) {
    const auto& words = context.words;
    const auto times = context.times();
    std::string text;
    const auto say = [&](std::string_view key, const words::Gaps& gaps) {
        text += wrapped(words.say(key, gaps), width);
    };
    for (const auto& station : month.provenance.stations) {
        if (station.cameLater > 0)
            say("month.came_later", {{"station", station.station},
                                     {"count", std::to_string(station.cameLater)}});
    }
    for (const auto& each : month.signatures) {
        const auto known = std::get<logbook::body::Sign>(each.record.body).knownAt;
        say("month.signed", {{"time", times.dated(each.record.at)},
                             {"person", words::personName(context, each.record.by)},
                             {"record", logbook::toText(each.record.name)},
                             {"known", times.dated(known)},
                             {"count", std::to_string(each.since)}});
    }
    return text;
}

std::string headText(const Month& month, const Context& context, std::size_t width) {
    const auto& words = context.words;
    const auto times = context.times();
    std::string text =
        words.say("month.title", {{"month", times.month(month.answer.month)}}) + "\n";
    for (const auto& problem : month.provenance.problems)
        text += wrapped(words.say("board.problem", {{"problem", problem}}), width);
    const auto adopter = adopterOf(context.state, context.lookup);
    if (!adopter.department.empty() && !adopter.facility.empty())
        text += wrapped(words.say("board.department", {{"department", adopter.department},
                                                       {"facility", adopter.facility}}),
                        width);
    text += wrapped(words.say("month.period", {{"from", times.full(month.answer.from)},
                                               {"to", times.full(month.answer.to)}}),
                    width);
    text += wrapped(words.say("board.asked", {{"time", times.full(month.at)}}), width);
    text += wrapped(words.say("month.known", {{"time", times.full(month.knownAt)}}), width);
    text += sinceText(month, context, width);
    return text +
           wrapped(words.say("month.edition", {{"edition", context.state.rulebook->edition}}),
                   width);
}

std::string startsText(const Month& month, const words::Words& words, std::size_t width) {
    Table table({words.say("month.class"), words.say("month.count"), words.say("month.meaning")});
    for (std::size_t i = 0; i < month.answer.starts.size(); ++i) {
        const auto startClass = static_cast<rules::StartClass>(i);
        table.add({words::classWord(words, startClass), std::to_string(month.answer.starts[i]),
                   words::classMeaning(words, startClass)});
    }
    const int all = month.answer.allStarts();
    table.add({words.say("month.all_starts"), std::to_string(all), ""});
    std::string text = heading(words, "month.starts") + table.text(width, 2);
    if (all == 0) return text + wrapped(words.say("month.no_starts"), width, 2);
    const int part = month.answer.compliantStarts();
    const auto wilson = rules::wilson95(part, all);
    return text +
           wrapped(words.say("month.compliance", {{"part", std::to_string(part)},
                                                  {"all", std::to_string(all)},
                                                  {"percent", words::percent(words, part, all)},
                                                  {"low", words::percent(words, wilson.low, 1)},
                                                  {"high", words::percent(words, wilson.high, 1)}}),
                   width, 2);
}

std::string exceptionText(const Month& month, const words::Words& words,
                          const MonthException& exception, std::size_t width) {
    const auto& record = exception.record;
    const auto context = contextAt(month, words, record.at);
    const auto head = contextAt(month, words, month.answer.from).times();
    std::string text =
        wrapped(words.say("month.exception",
                          {{"record", logbook::toText(record.name)},
                           {"time", head.dated(record.at)},
                           {"device", record.device},
                           {"class", words::classWord(words, exception.start.startClass)}}),
                width, 2);
    if (exception.start.unenrolled)
        text += wrapped(words::unenrolledSentence(context).says, width, 6);
    for (const auto& finding : exception.start.findings)
        text += wrapped(words::sentence(context, finding).says, width, 6);
    if (exception.start.late)
        text += wrapped(
            words.say("flag.late",
                      {{"duration", words::duration(words, exception.start.lateEntryAfter)}}),
            width, 6);
    if (exception.start.usedOnHold)
        text += wrapped(words.say("month.flags", {{"flags", words.say("flag.used_on_hold")}}),
                        width, 6);
    return text + wrapped(words.say("month.by", {{"person", words::personName(context, record.by)},
                                                 {"time", head.dated(record.entered)}}),
                          width, 6);
}

std::string exceptionsText(const Month& month, const words::Words& words, std::size_t width) {
    std::string text = heading(words, "month.exceptions");
    if (month.exceptions.empty())
        text += "  " +
                words.say(month.answer.allStarts() > 0 ? "month.no_exceptions" : "month.no_uses") +
                "\n";
    for (const auto& exception : month.exceptions)
        text += exceptionText(month, words, exception, width);
    return text;
}

std::string anomaliesText(const Month& month, const words::Words& words, std::size_t width) {
    std::string text = heading(words, "month.anomalies");
    if (month.anomalies.empty()) text += "  " + words.say("month.no_anomalies") + "\n";
    const auto head = contextAt(month, words, month.answer.from).times();
    for (const auto& anomaly : month.anomalies) {
        const auto& record = anomaly.record;
        const auto context = contextAt(month, words, record.at);
        const auto key = record.device.empty() ? "month.anomaly_department" : "month.anomaly";
        text += wrapped(words.say(key, {{"record", logbook::toText(record.name)},
                                        {"time", head.dated(record.at)},
                                        {"device", record.device},
                                        {"person", words::personName(context, record.by)}}),
                        width, 2);
        text += wrapped(words::anomaly(context, record, anomaly.code).text(), width, 6);
    }
    return text;
}

std::string availabilityText(const rules::MonthAnswer& answer, const words::Words& words,
                             std::size_t width) {
    std::string text = heading(words, "month.availability");
    if (answer.devices.empty()) return text + "  " + words.say("month.no_availability") + "\n";
    std::vector<std::string> titles{words.say("month.unit")};
    for (std::size_t i = 0; i < answer.devices.front().times.size(); ++i)
        titles.push_back(
            words::capitalized(words::verdictWord(words, static_cast<rules::Verdict>(i))));
    std::vector<Duration> all;
    for (const auto& device : answer.devices)
        all.insert(all.end(), device.times.begin(), device.times.end());
    const auto unit = words::unitFor(all);
    Table table(std::move(titles));
    for (const auto& device : answer.devices) {
        std::vector<std::string> cells{words::shown(device.device)};
        for (const auto& time : device.times) cells.push_back(words::span(words, time, unit));
        table.add(std::move(cells));
    }
    return text + table.text(width, 2);
}

std::string belowParText(const Context& context, const rules::MonthAnswer& answer,
                         std::size_t width) {
    if (answer.groups.empty()) return "";
    const auto& words = context.words;
    std::vector<Duration> all;
    for (const auto& group : answer.groups) all.push_back(group.belowPar);
    const auto unit = words::unitFor(all);
    Table table({words.say("month.group"), words.say("month.below")});
    for (const auto& group : answer.groups)
        table.add(
            {words::groupLabel(context, group.group), words::span(words, group.belowPar, unit)});
    return heading(words, "month.below_par") + table.text(width, 2);
}

std::string turnaroundText(const Context& context, const rules::MonthAnswer& answer,
                           std::size_t width) {
    if (answer.turnarounds.empty()) return "";
    const auto& words = context.words;
    std::vector<Duration> all;
    for (const auto& each : answer.turnarounds) all.push_back(each.took);
    const auto unit = words::unitFor(all);
    Table table({words.say("month.unit"), words.say("month.use_ended"), words.say("month.took")});
    for (const auto& each : answer.turnarounds) {
        const auto took = words::span(words, each.took, unit);
        table.add({words::shown(each.device), context.times().dated(each.from),
                   each.censored ? words.say("month.censored", {{"duration", took}}) : took});
    }
    return heading(words, "month.turnaround") + table.text(width, 2);
}

std::string tailText(const Month& month, const Context& context, std::size_t width) {
    const auto& words = context.words;
    std::string text = heading(words, "month.stations");
    for (const auto& line : heardLines(context, month.provenance)) text += wrapped(line, width, 2);
    if (!month.provenance.heads.empty()) {
        text += heading(words, "month.heads");
        for (const auto& head : month.provenance.heads)
            text += wrapped(words.say("month.head", {{"station", head.station},
                                                     {"seq", std::to_string(head.seq)},
                                                     {"hash", head.hash}}),
                            width, 2);
    }
    // The command stays on one line, so that it can be copied.
    text += heading(words, "month.repeat") + "  " + words::shown(repeatCommand(month)) + "\n";
    return text + "\n" + wrapped(words.say("caution.full"), width);
}

}  // namespace

std::string toText(const Month& month, const words::Words& words, const TextOptions& options) {
    const auto width = usableWidth(options);
    const auto context = contextAt(month, words, month.answer.to);
    return headText(month, context, width) + startsText(month, words, width) +
           exceptionsText(month, words, width) + anomaliesText(month, words, width) +
           availabilityText(month.answer, words, width) +
           belowParText(context, month.answer, width) +
           turnaroundText(context, month.answer, width) + tailText(month, context, width);
}

}  // namespace report
