// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bodies that hold lists or objects: a fitted part, a check's measures, what a notice matches,
// what was reprocessed, and what a signature covers.
#include "logbook/body_reader.h"

#include "logbook/text.h"
#include "logbook/unit.h"

namespace logbook {

using Code = RecordFault::Code;

namespace {

std::optional<NoticeAction> readAction(const json::Value& value, const Place& place) {
    return readWord(value, place,
                    {NoticeAction::StopUse, NoticeAction::Inspect, NoticeAction::Information});
}

std::optional<body::Match> readMatch(const json::Value& value, const Place& place) {
    if (wantObject(value, place) == nullptr) {
        return std::nullopt;
    }
    const Fields fields(value, place);
    body::Match match;
    match.position = fields.optional("position", readKey);
    match.lots = fields.optional("lots", readNames);
    match.serials = fields.optional("serials", readNames);
    match.partModels = fields.optional("part_models", readNames);
    match.deviceModels = fields.optional("device_models", readNames);
    match.devices = fields.optional("devices", readNames);
    match.software = fields.optional("software", readTexts);
    return match;
}

std::optional<std::string> readReuseOrNothing(const json::Value& value, const Place& place) {
    if (value.string() != nullptr && value.string()->empty()) {
        return std::string();
    }
    const auto reuse = readWord(
        value, place, {Reuse::SingleUse, Reuse::SinglePatient, Reuse::Reusable, Reuse::Permanent});
    return reuse ? std::optional(std::string(name(*reuse))) : std::nullopt;
}

std::optional<StatedPart> readPart(const json::Value& value, const Place& place) {
    if (wantObject(value, place) == nullptr) {
        return std::nullopt;
    }
    const Fields fields(value, place);
    StatedPart part;
    part.groups = fields.optional("groups", readKeySet);
    static_cast<void>(fields.optional("serial", readNameOrNothing));
    static_cast<void>(fields.optional("lot", readNameOrNothing));
    static_cast<void>(fields.optional("model", readNameOrNothing));
    static_cast<void>(fields.optional("reuse", readReuseOrNothing));
    static_cast<void>(fields.optional("expires", readDayTextOrNothing));
    for (const auto& [attribute, stated] : *value.object()) {
        if (stated.string() != nullptr && attribute != "groups" && isKey(attribute)) {
            part.attributes.try_emplace(attribute, *stated.string());
        }
    }
    return part;
}

std::optional<Outcome> readCheckOutcome(const json::Value& value, const Place& place) {
    return readWord(value, place, {Outcome::Pass, Outcome::Fail, Outcome::Incomplete});
}

std::optional<std::string> readUnit(const json::Value& value, const Place& place) {
    const std::string* unit = wantText(value, place);
    if (unit == nullptr) {
        return std::nullopt;
    }
    if (!isUnit(*unit)) {
        place.fault(Code::BadUnit, *unit);
        return std::nullopt;
    }
    return *unit;
}

using Measures = KeyMap<Measure>;

std::optional<Measures> readMeasures(const json::Value& value, const Place& place) {
    const json::Object* members = wantObject(value, place);
    if (members == nullptr) {
        return std::nullopt;
    }
    Measures measures;
    for (const auto& [key, measure] : *members) {
        const Place own = place.member(key);
        if (!isKey(key)) {
            own.fault(Code::BadKey, key);
        }
        if (wantObject(measure, own) != nullptr) {
            const Fields fields(measure, own);
            measures.try_emplace(key, Measure{fields.required("value", readNumber),
                                          fields.required("unit", readUnit)});
        }
    }
    return measures;
}

std::optional<body::SerialPart> readSerialPart(const json::Value& value, const Place& place) {
    if (wantObject(value, place) == nullptr) {
        return std::nullopt;
    }
    const Fields fields(value, place);
    return body::SerialPart{fields.required("position", readKey),
                            fields.required("serial", readName)};
}

std::optional<std::vector<body::SerialPart>> readSerialParts(const json::Value& value,
                                                             const Place& place) {
    return readList(value, place, readSerialPart);
}

std::optional<Level> readLevel(const json::Value& value, const Place& place) {
    return readWord(value, place, {Level::Low, Level::High, Level::Sterile});
}

// A list that holds something; an empty one is as good as none.
template <class Element>
std::vector<Element> readSome(const Fields& fields, std::string_view name,
                              Reader<std::vector<Element>>& read) {
    const json::Value* list = fields.find(name);
    if (list == nullptr || (list->array() != nullptr && list->array()->empty())) {
        fields.place().member(name).fault(Code::NoParts);
        return {};
    }
    return fields.optional(name, read).value_or(std::vector<Element>());
}

// `heads` is for people and programs that compare heads; its form is judged, nothing is read.
std::optional<bool> readHeads(const json::Value& value, const Place& place) {
    const json::Object* heads = wantObject(value, place);
    if (heads == nullptr) {
        return std::nullopt;
    }
    for (const auto& [station, head] : *heads) {
        const Place own = place.member(station);
        if (!isStationName(station)) {
            own.fault(Code::BadStation, station);
        }
        const json::Array* pair = wantList(head, own);
        if (pair == nullptr) {
            continue;
        }
        if (pair->size() != 2) {
            own.fault(Code::WrongType, "list");
            continue;
        }
        static_cast<void>(readSeq((*pair)[0], own.element(0)));
        static_cast<void>(readText((*pair)[1], own.element(1)));
    }
    return true;
}

}  // namespace

body::Notice readNotice(const Fields& fields) {
    return {fields.required("key", readKey), fields.required("title", readText),
            fields.required("action", readAction), fields.required("match", readMatch),
            fields.optional("cancelled", readFlag).value_or(false)};
}

body::Fit readFit(const Fields& fields) {
    return {fields.required("position", readKey), fields.required("part", readPart)};
}

body::Check readCheck(const Fields& fields) {
    return {fields.required("check", readKey), fields.required("outcome", readCheckOutcome),
            fields.optional("measures", readMeasures).value_or(Measures()),
            fields.optional("conditions", readKeySet).value_or(std::vector<std::string>())};
}

body::Reprocess readReprocess(const Fields& fields, Reach reach) {
    body::Reprocess reprocess;
    reprocess.level = fields.required("level", readLevel);
    reprocess.load = fields.optional("load", readText);
    if (reach == Reach::Device) {
        reprocess.positions = readSome(fields, "positions", readKeys);
    } else if (reach == Reach::Department) {
        reprocess.parts = readSome(fields, "parts", readSerialParts);
    }
    return reprocess;
}

body::Sign readSign(const Fields& fields) {
    static_cast<void>(fields.required("heads", readHeads));
    return {fields.required("scope", readText), fields.optional("month", readMonthText),
            fields.required("known_at", readInstant), fields.required("digest", readText)};
}

}  // namespace logbook
