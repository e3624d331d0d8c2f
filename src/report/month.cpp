// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month as a model and as JSON. Its text is made in month_text.cpp.
#include "report/month.h"

#include "words/shown.h"

#include <algorithm>

namespace report {

namespace {

namespace json = logbook::json;

std::string monthName(const Month& month) {
    return logbook::toText(logbook::Day(month.answer.month / 1)).substr(0, 7);
}

json::Value exceptionOf(const MonthException& exception) {
    std::vector<std::string> findings;
    for (const auto& finding : exception.start.findings) findings.push_back(rules::toText(finding));
    if (exception.start.unenrolled) findings.emplace_back("unenrolled");
    std::sort(findings.begin(), findings.end());
    json::Array flags;
    if (exception.start.usedOnHold) flags.emplace_back("used_on_hold");
    return json::Object{{"record", logbook::toText(exception.record.name)},
                        {"device", exception.record.device},
                        {"class", rules::name(exception.start.startClass)},
                        {"flags", std::move(flags)},
                        {"findings", json::Array(findings.begin(), findings.end())}};
}

json::Value anomalyOf(const MonthAnomaly& anomaly) {
    return json::Object{{"anomaly", rules::name(anomaly.code)},
                        {"record", logbook::toText(anomaly.record.name)},
                        {"device", anomaly.record.device}};
}

json::Object startsOf(const rules::MonthAnswer& answer) {
    json::Object starts;
    for (std::size_t i = 0; i < answer.starts.size(); ++i)
        starts.emplace_back(rules::name(static_cast<rules::StartClass>(i)), answer.starts[i]);
    return starts;
}

double seconds(Duration duration) {
    return static_cast<double>(duration.ms) / 1000;
}

void addTimes(const rules::MonthAnswer& answer, json::Object& object) {
    json::Array devices;
    for (const auto& each : answer.devices) {
        json::Object times{{"device", each.device}};
        for (std::size_t i = 0; i < each.times.size(); ++i)
            times.emplace_back(std::string(rules::name(static_cast<rules::Verdict>(i))) + "_s",
                               seconds(each.times[i]));
        devices.emplace_back(std::move(times));
    }
    object.emplace_back("devices", std::move(devices));
    json::Object groups;
    for (const auto& each : answer.groups)
        groups.emplace_back(each.group, json::Object{{"below_par_s", seconds(each.belowPar)}});
    object.emplace_back("groups", std::move(groups));
    json::Array turnaround;
    for (const auto& each : answer.turnarounds)
        turnaround.push_back(json::Object{{"device", each.device},
                                          {"from", logbook::toText(each.from)},
                                          {"seconds", seconds(each.took)},
                                          {"censored", each.censored}});
    object.emplace_back("turnaround", std::move(turnaround));
}

bool isInPeriod(const rules::Log& log, const Month& month, const logbook::Record& record) {
    const auto* strike = std::get_if<logbook::body::Strike>(&record.body);
    const auto target = strike ? log.find(strike->target) : std::nullopt;
    const Instant at = target ? log.records()[*target].at : record.at;
    return at >= month.answer.from && at < month.answer.to;
}

// Entries about the period, strikes of them among these, that were written down after `from` and by
// `to`. Signatures are about the report, not the period.
std::size_t writtenBetween(const rules::Log& log, const Month& month, Instant from, Instant to) {
    const auto& records = log.records();
    return static_cast<std::size_t>(
        std::count_if(records.begin(), records.end(), [&](const logbook::Record& record) {
            return record.entered > from && record.entered <= to &&
                   record.kind() != logbook::Kind::Sign && isInPeriod(log, month, record);
        }));
}

void addSignatures(const rules::Log& log, Month& month) {
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        const auto* sign = std::get_if<logbook::body::Sign>(&record.body);
        const bool isOfMonth = sign && sign->month == monthName(month);
        if (!isOfMonth || !log.takesPart(index, month.knownAt)) continue;
        month.signatures.push_back(
            {record, writtenBetween(log, month, sign->knownAt, month.knownAt)});
    }
}

// As a signature holds them.
json::Value headsOf(const Provenance& provenance) {
    json::Object heads;
    for (const auto& head : provenance.heads)
        heads.emplace_back(head.station, json::Array{head.seq, head.hash});
    return heads;
}

bool isPlain(char c) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    return letter || (c >= '0' && c <= '9') || c == '/' || c == '.' || c == '-' || c == '_';
}

// As a POSIX shell reads it back, and no command takes it for an option.
std::string quoted(const std::string& path) {
    if (path.starts_with('-')) return quoted("./" + path);
    if (!path.empty() && std::all_of(path.begin(), path.end(), isPlain)) return path;
    std::string text = "'";
    for (const char c : path) text += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return text + "'";
}

}  // namespace

tl::expected<Month, rules::LogFault> makeMonth(const rules::Log& log,
                                               const rules::MonthQuestion& question,
                                               std::string logbook, Provenance provenance) {
    auto answer = rules::month(log, question);
    if (!answer) return tl::unexpected(std::move(answer.error()));
    Month month;
    month.answer = std::move(*answer);
    month.provenance = std::move(provenance);
    month.logbook = std::move(logbook);
    month.lookup = lookupIn(log);
    const auto end = log.endOfKnowledge(question.knownAt).value_or(question.knownAt);
    month.at = question.at.value_or(end);
    month.knownAt = question.knownAt == rules::unlimited ? end : question.knownAt;
    month.provenance.knownAt = month.knownAt;
    for (const auto& start : month.answer.exceptions)
        month.exceptions.push_back({log.records()[start.record], start});
    for (const auto& anomaly : month.answer.anomalies)
        month.anomalies.push_back({log.records()[anomaly.record], anomaly.code});
    month.leftOut = writtenBetween(log, month, month.knownAt, rules::unlimited);
    addSignatures(log, month);
    return month;
}

std::string repeatCommand(const Month& month) {
    return "airmuster-cli month " + quoted(month.logbook) + " " + monthName(month) + " --at " +
           logbook::toText(month.at) + " --known-at " + logbook::toText(month.knownAt);
}

json::Value toJson(const Month& month) {
    const auto& answer = month.answer;
    json::Object object{{"month", monthName(month)},
                        {"from", logbook::toText(answer.from)},
                        {"to", logbook::toText(answer.to)},
                        {"starts", startsOf(answer)}};
    if (!month.provenance.problems.empty()) object.emplace_back("in_doubt", true);
    json::Value compliance, interval;
    if (answer.allStarts() > 0) {
        compliance = static_cast<double>(answer.compliantStarts()) / answer.allStarts();
        const auto wilson = rules::wilson95(answer.compliantStarts(), answer.allStarts());
        interval = json::Array{wilson.low, wilson.high};
    }
    object.emplace_back("compliance", std::move(compliance));
    object.emplace_back("wilson95", std::move(interval));
    json::Array exceptions, anomalies;
    for (const auto& exception : month.exceptions) exceptions.push_back(exceptionOf(exception));
    for (const auto& anomaly : month.anomalies) anomalies.push_back(anomalyOf(anomaly));
    object.emplace_back("exceptions", std::move(exceptions));
    object.emplace_back("anomalies", std::move(anomalies));
    addTimes(answer, object);
    object.emplace_back("heads", headsOf(month.provenance));
    return object;
}

}  // namespace report
