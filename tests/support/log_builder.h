// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A readable way to write a log for a test:
//     log.on("KB-1").at("14:05").fit("circuit", {{"layout", "coaxial"}});
// Every record goes through the reader, so that no test rests on one that would be refused. Knows
// nothing of what the records mean.
#pragma once

#include "logbook/record_reader.h"

#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace support {

namespace json = logbook::json;
using logbook::Instant;
using logbook::RecordName;
using Texts = std::vector<std::string>;

// "14:05", "14:05:30" or "14:05:30.250": on 2 March 2026, UTC; "04-01 14:05": on that day of 2026;
// else RFC 3339.
inline Instant when(std::string_view text) {
    std::string full(text);
    if (full.find('T') == std::string::npos) {
        const auto blank = full.find(' ');
        const bool hasDay = blank != std::string::npos;
        const std::string day = hasDay ? full.substr(0, blank) : "03-02";
        std::string clock = hasDay ? full.substr(blank + 1) : full;
        if (clock.size() == 5) clock += ":00";
        full = "2026-" + day + "T" + clock + "Z";
    }
    const auto instant = logbook::parseInstant(full);
    if (!instant) throw std::invalid_argument("no instant: " + full);
    return *instant;
}

inline logbook::Duration minutes(std::int64_t count) { return {count * 60'000}; }

// One instant earlier.
inline Instant justBefore(Instant instant) { return {instant.ms - 1}; }

inline json::Array list(const Texts& texts) { return {texts.begin(), texts.end()}; }

class LogBuilder;

// A record about to be written; what is not said is taken from the builder.
class Entry {
public:
    Entry(LogBuilder& log, std::string device);

    Entry& at(Instant instant);
    Entry& at(std::string_view text) { return at(when(text)); }
    Entry& entered(Instant instant) { return say("entered", logbook::toText(instant)); }
    Entry& entered(std::string_view text) { return entered(when(text)); }
    Entry& by(const std::string& person) { return say("by", person); }
    Entry& station(const std::string& name) { return say("station", name); }
    Entry& doneBy(const std::string& person) { return say("done_by", person); }
    Entry& witness(const std::string& person) { return say("witness", person); }
    Entry& form(const std::string& number) { return say("form", number); }
    // Of a check.
    Entry& stating(const std::string& condition) {
        m_conditions.push_back(condition);
        return *this;
    }
    Entry& measuring(const std::string& key, double value, const std::string& unit) {
        m_measures.emplace_back(key, json::Object{{"value", value}, {"unit", unit}});
        return *this;
    }

    // Each of the rest writes the record.
    RecordName write(const std::string& kind, json::Object body = {});

    RecordName enrol(const Texts& groups, const Texts& features = {}, json::Object more = {}) {
        more.emplace_back("groups", list(groups));
        more.emplace_back("features", list(features));
        const auto given = [&more](std::string_view name) {
            return json::Value(more).find(name) != nullptr;
        };
        if (!given("model")) more.emplace_back("model", "Larch");
        if (!given("commissioned")) more.emplace_back("commissioned", "2026-01-15");
        return write("enrol", std::move(more));
    }
    RecordName retire() { return write("retire", {{"reason", "sold"}}); }
    RecordName group(const std::string& group) { return write("group", {{"group", group}}); }
    RecordName power(bool on) { return write("power", {{"on", on}}); }
    RecordName move(const std::string& to) { return write("move", {{"location", to}}); }
    RecordName sighted(const std::string& there) {
        return write("sighted", {{"location", there}});
    }
    RecordName software(const std::string& version) {
        return write("software", {{"version", version}});
    }
    RecordName fit(const std::string& position, json::Object part = {}) {
        return write("fit", {{"position", position}, {"part", std::move(part)}});
    }
    RecordName remove(const std::string& position) {
        return write("remove", {{"position", position}});
    }
    RecordName reprocess(const Texts& positions, const std::string& level = "high") {
        return write("reprocess", {{"positions", list(positions)}, {"level", level}});
    }
    RecordName reprocessPart(const std::string& position, const std::string& serial,
                             const std::string& level = "high") {
        const json::Object part{{"position", position}, {"serial", serial}};
        return write("reprocess", {{"parts", json::Array{json::Value(part)}}, {"level", level}});
    }
    RecordName soil() { return write("soil", {{"reason", "splash"}}); }
    RecordName check(const std::string& check, const std::string& outcome) {
        json::Object body{{"check", check}, {"outcome", outcome}};
        if (!m_measures.empty()) body.emplace_back("measures", m_measures);
        if (!m_conditions.empty()) body.emplace_back("conditions", list(m_conditions));
        return write("check", std::move(body));
    }
    RecordName pass(const std::string& key) { return check(key, "pass"); }
    RecordName fail(const std::string& key) { return check(key, "fail"); }
    RecordName alarm(const std::string& code) { return write("alarm", {{"code", code}}); }
    RecordName fault(const std::string& code) { return write("fault", {{"code", code}}); }
    RecordName fault(const std::string& code, bool blocking) {
        return write("fault", {{"code", code}, {"blocking", blocking}});
    }
    RecordName clear(const std::string& code) { return write("clear", {{"code", code}}); }
    RecordName withdraw(const std::string& hold) {
        return write("withdraw", {{"hold", hold}, {"reason", "smoke"}});
    }
    RecordName release(const std::string& hold) { return write("release", {{"hold", hold}}); }
    RecordName waive(const std::string& finding, const std::string& subject, Instant until) {
        return write("waive", {{"finding", finding}, {"subject", subject},
                               {"until", logbook::toText(until)}, {"reason", "surge"}});
    }
    RecordName waive(const std::string& finding, const std::string& subject,
                     std::string_view until) {
        return waive(finding, subject, when(until));
    }
    RecordName noticeDone(const std::string& key) {
        return write("notice_done", {{"key", key}});
    }
    RecordName service(const std::string& key, const std::string& outcome = "pass") {
        return write("service", {{"service", key}, {"outcome", outcome}});
    }
    RecordName useStart(json::Object body = {}) { return write("use_start", std::move(body)); }
    RecordName usePause() { return write("use_pause", {{"reason", "circuit change"}}); }
    RecordName useResume() { return write("use_resume"); }
    RecordName useEnd() { return write("use_end"); }
    RecordName note() { return write("note", {{"text", "seen"}}); }
    RecordName strike(const RecordName& target) {
        return write("strike", {{"target", logbook::toText(target)}, {"reason", "slip"}});
    }
    RecordName adopt(const std::string& rulebook);
    RecordName person(const std::string& name, const Texts& roles, const std::string& until = "") {
        json::Object body{{"person", name}, {"name", name}, {"roles", list(roles)}};
        if (!until.empty()) body.emplace_back("until", until);
        return write("person", std::move(body));
    }
    RecordName notice(const std::string& key, json::Object match = {},
                      const std::string& action = "stop_use", bool cancelled = false) {
        return write("notice", {{"key", key}, {"title", "Notice"}, {"action", action},
                                {"match", std::move(match)}, {"cancelled", cancelled}});
    }

private:
    Entry& say(std::string_view field, json::Value value) {
        if (json::Value* there = m_fields.find(field)) {
            *there = std::move(value);
        } else {
            m_fields.object()->emplace_back(field, std::move(value));
        }
        return *this;
    }

    LogBuilder& m_log;
    json::Value m_fields{json::Object{}};
    Texts m_conditions;
    json::Object m_measures;
};

class LogBuilder {
public:
    Entry on(const std::string& device) { return {*this, device}; }
    Entry department() { return {*this, ""}; }

    RecordName adopt(const std::string& rulebook) { return department().adopt(rulebook); }

    // A minute after the record written last; the first is at 08:00.
    [[nodiscard]] Instant nextInstant() const { return m_next; }
    void takeTime(Instant at) { m_next = at + minutes(1); }

    RecordName add(json::Value fields) {
        json::Object& members = *fields.object();
        const std::string station = *fields.find("station")->string();
        members.emplace_back("seq", static_cast<double>(++m_lastSeq[station]));
        auto record = logbook::readRecord(fields);
        if (!record) {
            throw std::invalid_argument("refused: " + record.error().front().field + " of " +
                                        json::canonical(fields));
        }
        m_records.push_back(std::move(*record));
        return m_records.back().name;
    }

    [[nodiscard]] const std::vector<logbook::Record>& records() const { return m_records; }

private:
    std::vector<logbook::Record> m_records;
    std::map<std::string, std::int64_t> m_lastSeq;
    Instant m_next = when("08:00");
};

inline Entry::Entry(LogBuilder& log, std::string device) : m_log(log) {
    say("device", std::move(device));
    say("by", "Robin");
    say("station", "icu-1");
    say("at", logbook::toText(log.nextInstant()));
}

inline Entry& Entry::at(Instant instant) { return say("at", logbook::toText(instant)); }

inline RecordName Entry::write(const std::string& kind, json::Object body) {
    const json::Value at = *m_fields.find("at");
    if (!m_fields.find("entered")) say("entered", at);
    say("kind", kind);
    say("body", std::move(body));
    m_log.takeTime(*logbook::parseInstant(*at.string()));
    return m_log.add(m_fields);
}

// The edition is the one that the text names.
inline RecordName Entry::adopt(const std::string& rulebook) {
    const std::string field = "edition = \"";
    const auto begin = rulebook.find(field) + field.size();
    const std::string edition = rulebook.substr(begin, rulebook.find('"', begin) - begin);
    return write("adopt", {{"edition", edition}, {"text", rulebook}});
}

}  // namespace support
