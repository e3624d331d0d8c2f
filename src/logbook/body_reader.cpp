// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One reading for each kind of record whose body is flat, and the choice among all.
#include "logbook/body_reader.h"

#include <array>

namespace logbook {

namespace {

std::optional<Outcome> readServiceOutcome(const json::Value& value, const Place& place) {
    return readWord(value, place,
                    {Outcome::Pass, Outcome::Fail, Outcome::InUse, Outcome::NotLocated,
                     Outcome::Deferred});
}

body::Adopt readAdopt(const Fields& fields) {
    static_cast<void>(fields.optional("approved_by", readText));
    static_cast<void>(fields.optional("department", readText));
    static_cast<void>(fields.optional("facility", readText));
    return {fields.required("edition", readText), fields.required("text", readText)};
}

body::Person readPerson(const Fields& fields) {
    return {fields.required("person", readName), fields.required("name", readText),
            fields.required("roles", readKeys), fields.optional("until", readDay)};
}

body::Enrol readEnrol(const Fields& fields) {
    body::Enrol enrol;
    enrol.model = fields.required("model", readName);
    enrol.groups = fields.required("groups", readKeySet);
    enrol.features = fields.required("features", readKeySet);
    enrol.commissioned = fields.required("commissioned", readDay);
    enrol.label = fields.optional("label", readText);
    enrol.asset = fields.optional("asset", readName);
    enrol.maker = fields.optional("maker", readText);
    enrol.udi = fields.optional("udi", readText);
    enrol.location = fields.optional("location", readName);
    enrol.owner = fields.optional("owner", readText);
    enrol.returnBy = fields.optional("return_by", readDayText);
    return enrol;
}

body::Fault readFault(const Fields& fields) {
    return {fields.required("code", readKey), fields.optional("blocking", readFlag),
            fields.optional("text", readText)};
}

body::Waive readWaive(const Fields& fields) {
    return {fields.required("finding", readKey), fields.required("subject", readKey),
            fields.required("until", readInstant), fields.required("reason", readText)};
}

body::UseStart readUseStart(const Fields& fields) {
    body::UseStart start;
    start.group = fields.optional("group", readKey);
    start.location = fields.optional("location", readName);
    start.reason = fields.optional("reason", readText);
    start.precautions = fields.optional("precautions", readFlag);
    start.emergency = fields.optional("emergency", readFlag).value_or(false);
    start.samePatient = fields.optional("same_patient", readFlag).value_or(false);
    return start;
}

body::Review readReview(const Fields& fields) {
    return {fields.required("target", readRecordName), fields.required("disposition", readText),
            fields.required("text", readText)};
}

}  // namespace

Body readBody(Kind kind, const Fields& fields, Reach reach) {
    const auto text = [&](std::string_view name) { return fields.required(name, readText); };
    const auto named = [&](std::string_view name) { return fields.required(name, readName); };
    const auto key = [&](std::string_view name) { return fields.required(name, readKey); };
    switch (kind) {
    case Kind::Adopt: return readAdopt(fields);
    case Kind::Person: return readPerson(fields);
    case Kind::Notice: return readNotice(fields);
    case Kind::Enrol: return readEnrol(fields);
    case Kind::Retire: return body::Retire{text("reason")};
    case Kind::Group: return body::Group{key("group")};
    case Kind::Power: return body::Power{fields.required("on", readFlag)};
    case Kind::Move: return body::Move{named("location")};
    case Kind::Sighted: return body::Sighted{named("location")};
    case Kind::Software: return body::Software{text("version")};
    case Kind::Fit: return readFit(fields);
    case Kind::Remove: return body::Remove{key("position")};
    case Kind::Reprocess: return readReprocess(fields, reach);
    case Kind::Soil: return body::Soil{text("reason")};
    case Kind::Check: return readCheck(fields);
    case Kind::Alarm: return body::Alarm{key("code")};
    case Kind::Fault: return readFault(fields);
    case Kind::Clear: return body::Clear{key("code")};
    case Kind::Withdraw: return body::Withdraw{key("hold"), text("reason")};
    case Kind::Release: return body::Release{key("hold")};
    case Kind::Waive: return readWaive(fields);
    case Kind::NoticeDone: return body::NoticeDone{key("key"), fields.optional("text", readText)};
    case Kind::Service:
        return body::Service{key("service"), fields.required("outcome", readServiceOutcome)};
    case Kind::UseStart: return readUseStart(fields);
    case Kind::UsePause: return body::UsePause{text("reason")};
    case Kind::UseResume: return body::UseResume{};
    case Kind::UseEnd: return body::UseEnd{};
    case Kind::Note: return body::Note{text("text")};
    case Kind::Review: return readReview(fields);
    case Kind::Sign: return readSign(fields);
    case Kind::Strike:
        return body::Strike{fields.required("target", readRecordName), text("reason")};
    }
    return {};
}

}  // namespace logbook
