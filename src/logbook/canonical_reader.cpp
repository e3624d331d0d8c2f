// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The kinds that a logbook is full of, member by member in the order in which canonical JSON has
// them; see canonical_reader.h. Kinds that are rare are left to readRecord.
#include "logbook/canonical_reader.h"

#include "logbook/canonical_cursor.h"
#include "logbook/text.h"
#include "logbook/unit.h"

#include <utility>

namespace logbook {

namespace {

constexpr std::size_t longestContent = 1024 * 1024;

using Cursor = CanonicalCursor;
using Members = CanonicalMembers;

// The alternative of the body, with the memory it had if it is the same as before.
template <class Kind>
Kind& renewed(Body& body) {
    auto* same = std::get_if<Kind>(&body);
    return same != nullptr ? *same : body.emplace<Kind>();
}

// Here and below `Name` is a text as the source has it, with its length.
template <class Name, class Value, class Take>
bool takeOptional(Members& members, const Name& name, std::optional<Value>& value, Take take) {
    if (!members.next(name)) {
        value.reset();
        return true;
    }
    return take(value ? *value : value.emplace());
}

template <class Name>
bool takeOptionalText(Cursor& cursor, Members& members, const Name& name,
                      std::optional<std::string>& text) {
    return takeOptional(members, name, text, [&](auto& into) { return cursor.takeText(into); });
}

template <class Name>
bool takeOptionalName(Cursor& cursor, Members& members, const Name& name,
                      std::optional<std::string>& text) {
    return takeOptional(members, name, text, [&](auto& into) { return cursor.takeName(into); });
}

template <class Name>
bool takeFlagOr(Cursor& cursor, Members& members, const Name& name, bool usual, bool& flag) {
    flag = usual;
    return !members.next(name) || cursor.takeFlag(flag);
}

template <class Word, class Parse>
bool takeWord(Cursor& cursor, Parse parse, Word& word) {
    std::string_view text;
    const auto parsed = cursor.takeText(text) ? parse(text) : std::nullopt;
    if (!parsed) {
        return false;
    }
    word = *parsed;
    return true;
}

// An object of one member, which is a key or a text.
template <class Name>
bool takeOneKey(Cursor& cursor, const Name& name, std::string& key) {
    Members members(cursor);
    return members.next(name) && cursor.takeKey(key) && members.end();
}

template <class Name>
bool takeOneText(Cursor& cursor, const Name& name, std::string& text) {
    Members members(cursor);
    return members.next(name) && cursor.takeText(text) && members.end();
}

template <class Name>
bool takeOneName(Cursor& cursor, const Name& name, std::string& text) {
    Members members(cursor);
    return members.next(name) && cursor.takeName(text) && members.end();
}

using Measures = KeyMap<Measure>;

bool takeMeasures(Cursor& cursor, Measures& measures) {
    measures.clear();
    Members members(cursor);
    std::string_view key;
    while (members.nextOfAny(key)) {
        if (!isKey(key)) {
            return false;
        }
        Measure measure;
        Members own(cursor);
        if (!own.next("unit") || !cursor.takeText(measure.unit) || !isUnit(measure.unit) ||
            !own.next("value") || !cursor.takeNumber(measure.value) || !own.end()) {
            return false;
        }
        measures.append(key, std::move(measure));
    }
    return members.end();
}

std::optional<Outcome> checkOutcomeOf(std::string_view text) {
    const auto outcome = outcomeOf(text);
    const bool ofCheck = outcome == Outcome::Pass || outcome == Outcome::Fail ||
                         outcome == Outcome::Incomplete;
    return ofCheck ? outcome : std::nullopt;
}

std::optional<Outcome> serviceOutcomeOf(std::string_view text) {
    const auto outcome = outcomeOf(text);
    return outcome == Outcome::Incomplete ? std::nullopt : outcome;
}

bool takeBody(Cursor& cursor, body::Check& check) {
    Members members(cursor);
    if (!members.next("check") || !cursor.takeKey(check.check)) {
        return false;
    }
    check.conditions.clear();
    if (members.next("conditions") && !cursor.takeKeySet(check.conditions)) {
        return false;
    }
    check.measures.clear();
    if (members.next("measures") && !takeMeasures(cursor, check.measures)) {
        return false;
    }
    return members.next("outcome") && takeWord(cursor, checkOutcomeOf, check.outcome) &&
           members.end();
}

bool isAttribute(std::string_view key, std::string_view text) {
    if (key == "serial" || key == "lot" || key == "model") {
        return text.empty() || isName(text);
    }
    if (key == "reuse") {
        return text.empty() || reuseOf(text).has_value();
    }
    if (key == "expires") {
        return text.empty() || parseDay(text).has_value();
    }
    return isKey(key);
}

bool takePart(Cursor& cursor, StatedPart& part) {
    part.attributes.clear();
    part.groups.reset();
    Members members(cursor);
    std::string_view key, text;
    while (members.nextOfAny(key)) {
        if (key == "groups") {
            if (!cursor.takeKeySet(part.groups.emplace())) {
                return false;
            }
        } else if (cursor.takeText(text) && isAttribute(key, text)) {
            part.attributes.append(key, std::string(text));
        } else {
            return false;
        }
    }
    return members.end();
}

bool takeBody(Cursor& cursor, body::Fit& fit) {
    Members members(cursor);
    return members.next("part") && takePart(cursor, fit.part) && members.next("position") &&
           cursor.takeKey(fit.position) && members.end();
}

// Of a device: without parts by serial.
bool takeBody(Cursor& cursor, body::Reprocess& reprocess) {
    Members members(cursor);
    reprocess.parts.clear();
    if (!members.next("level") || !takeWord(cursor, levelOf, reprocess.level) ||
        !takeOptionalText(cursor, members, "load", reprocess.load) ||
        !members.next("positions") || !cursor.take('[')) {
        return false;
    }
    reprocess.positions.clear();
    do {
        if (!cursor.takeKey(reprocess.positions.emplace_back())) {
            return false;
        }
    } while (cursor.take(','));
    return cursor.take(']') && members.end();
}

bool takeBody(Cursor& cursor, body::Fault& fault) {
    Members members(cursor);
    return takeOptional(members, "blocking", fault.blocking,
                        [&](bool& flag) { return cursor.takeFlag(flag); }) &&
           members.next("code") && cursor.takeKey(fault.code) &&
           takeOptionalText(cursor, members, "text", fault.text) && members.end();
}

bool takeBody(Cursor& cursor, body::Withdraw& withdraw) {
    Members members(cursor);
    return members.next("hold") && cursor.takeKey(withdraw.hold) && members.next("reason") &&
           cursor.takeText(withdraw.reason) && members.end();
}

bool takeBody(Cursor& cursor, body::Service& service) {
    Members members(cursor);
    return members.next("outcome") && takeWord(cursor, serviceOutcomeOf, service.outcome) &&
           members.next("service") && cursor.takeKey(service.service) && members.end();
}

bool takeBody(Cursor& cursor, body::UseStart& start) {
    Members members(cursor);
    const auto flag = [&](bool& into) { return cursor.takeFlag(into); };
    const auto key = [&](std::string& into) { return cursor.takeKey(into); };
    return takeFlagOr(cursor, members, "emergency", false, start.emergency) &&
           takeOptional(members, "group", start.group, key) &&
           takeOptionalName(cursor, members, "location", start.location) &&
           takeOptional(members, "precautions", start.precautions, flag) &&
           takeOptionalText(cursor, members, "reason", start.reason) &&
           takeFlagOr(cursor, members, "same_patient", false, start.samePatient) &&
           members.end();
}

bool takeBody(Cursor& cursor, body::Power& power) {
    Members members(cursor);
    return members.next("on") && cursor.takeFlag(power.on) && members.end();
}

bool takeBody(Cursor& cursor, body::Strike& strike) {
    Members members(cursor);
    if (!members.next("reason") || !cursor.takeText(strike.reason) || !members.next("target")) {
        return false;
    }
    return takeWord(cursor, parseRecordName, strike.target) && members.end();
}

bool takeNothing(Cursor& cursor) {
    Members members(cursor);
    return members.end();
}

bool takeBodyOf(Kind kind, Cursor& cursor, Body& body) {
    const auto key = [&](const auto& name, std::string& text) {
        return takeOneKey(cursor, name, text);
    };
    switch (kind) {
        case Kind::Retire:
            return takeOneText(cursor, "reason", renewed<body::Retire>(body).reason);
        case Kind::Group: return key("group", renewed<body::Group>(body).group);
        case Kind::Power: return takeBody(cursor, renewed<body::Power>(body));
        case Kind::Move:
            return takeOneName(cursor, "location", renewed<body::Move>(body).location);
        case Kind::Sighted:
            return takeOneName(cursor, "location", renewed<body::Sighted>(body).location);
        case Kind::Software:
            return takeOneText(cursor, "version", renewed<body::Software>(body).version);
        case Kind::Fit: return takeBody(cursor, renewed<body::Fit>(body));
        case Kind::Remove: return key("position", renewed<body::Remove>(body).position);
        case Kind::Reprocess: return takeBody(cursor, renewed<body::Reprocess>(body));
        case Kind::Soil:
            return takeOneText(cursor, "reason", renewed<body::Soil>(body).reason);
        case Kind::Check: return takeBody(cursor, renewed<body::Check>(body));
        case Kind::Alarm: return key("code", renewed<body::Alarm>(body).code);
        case Kind::Fault: return takeBody(cursor, renewed<body::Fault>(body));
        case Kind::Clear: return key("code", renewed<body::Clear>(body).code);
        case Kind::Withdraw: return takeBody(cursor, renewed<body::Withdraw>(body));
        case Kind::Release: return key("hold", renewed<body::Release>(body).hold);
        case Kind::Service: return takeBody(cursor, renewed<body::Service>(body));
        case Kind::UseStart: return takeBody(cursor, renewed<body::UseStart>(body));
        case Kind::UsePause:
            return takeOneText(cursor, "reason", renewed<body::UsePause>(body).reason);
        case Kind::UseResume: renewed<body::UseResume>(body); return takeNothing(cursor);
        case Kind::UseEnd: renewed<body::UseEnd>(body); return takeNothing(cursor);
        case Kind::Note: return takeOneText(cursor, "text", renewed<body::Note>(body).text);
        case Kind::Strike: return takeBody(cursor, renewed<body::Strike>(body));
        default: return false;
    }
}

bool takeStation(Cursor& cursor, std::string& station) {
    return cursor.takeText(station) && isStationName(station);
}

bool takeMembers(Cursor& cursor, Kind kind, Record& record) {
    Members members(cursor);
    const auto name = [&](const auto& member, std::string& text) {
        return members.next(member) && cursor.takeName(text);
    };
    record.movedFrom.reset();
    return members.next("at") && cursor.takeInstant(record.at) &&
           takeOptionalText(cursor, members, "batch", record.batch) && members.next("body") &&
           takeBodyOf(kind, cursor, record.body) && name("by", record.by) &&
           takeFlagOr(cursor, members, "confirmed", true, record.confirmed) &&
           members.next("device") && cursor.takeText(record.device) &&
           takeOptionalName(cursor, members, "done_by", record.doneBy) &&
           members.next("entered") && cursor.takeInstant(record.entered) &&
           takeOptionalText(cursor, members, "form", record.form) && members.next("kind") &&
           cursor.take('"') && cursor.take(kindName(kind)) && cursor.take('"') &&
           members.next("seq") && cursor.takeWhole(record.name.seq) && members.next("station") &&
           takeStation(cursor, record.name.station) &&
           takeOptionalName(cursor, members, "witness", record.witness) && members.end() &&
           cursor.atEnd();
}

// What readRecord demands of the members together.
bool fits(Kind kind, const Record& record) {
    const bool timely = !mustBeTimely(kind) || record.at == record.entered;
    const bool ofDevice = record.device.empty() ? kind == Kind::Strike : isName(record.device);
    return timely && ofDevice && record.at <= record.entered && record.name.seq >= 1;
}

}  // namespace

bool readCanonical(std::string_view content, std::string_view kind, Record& record,
                   WithContent withContent) {
    const auto known = kindOf(kind);
    if (!known || content.size() > longestContent) {
        return false;
    }
    Cursor cursor(content);
    if (!takeMembers(cursor, *known, record) || !fits(*known, record)) {
        return false;
    }
    record.content.assign(withContent == WithContent::Yes ? content : std::string_view());
    return true;
}

bool readCanonical(std::string_view line, Record& record) {
    // In canonical JSON no member of a member stands behind the record's own kind.
    constexpr std::string_view before = R"("kind":")";
    const auto place = line.rfind(before);
    if (place == std::string_view::npos) {
        return false;
    }
    const auto word = line.substr(place + before.size());
    return readCanonical(line, word.substr(0, word.find('"')), record);
}

}  // namespace logbook
