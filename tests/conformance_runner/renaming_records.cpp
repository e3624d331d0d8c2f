// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Renames records: where in each kind of record a name stands, and of which kind it is.
#include "conformance_runner/renaming.h"

#include <functional>
#include <map>

namespace conformance {

namespace {

namespace json = logbook::json;

// Renames texts, lists of texts and the members of objects; everything else stays.
void renameValue(Value* value, NameKind kind, Names& names) {
    if (value == nullptr) {
        return;
    }
    if (const std::string* text = value->string()) {
        *value = names(kind, *text);
    } else if (json::Array* list = value->array()) {
        for (Value& element : *list) {
            renameValue(&element, kind, names);
        }
    } else if (json::Object* object = value->object()) {
        for (auto& [name, member] : *object) {
            name = names(kind, name);
        }
    }
}

void renameMember(Value& object, const char* name, NameKind kind, Names& names) {
    renameValue(object.find(name), kind, names);
}

void renameRecordName(Value& object, const char* name, Names& names) {
    if (Value* value = object.find(name); value != nullptr && value->string() != nullptr) {
        *value = renamedRecordName(*value->string(), names);
    }
}

void renamePart(Value& part, Names& names) {
    if (part.object() == nullptr) {
        return;
    }
    for (auto& [name, value] : *part.object()) {
        if (!isReservedAttribute(name) && value.string() != nullptr) {
            renameValue(&value, NameKind::AttributeValue, names);
            name = names(NameKind::Attribute, name);
        }
    }
    renameMember(part, "serial", NameKind::Serial, names);
    renameMember(part, "lot", NameKind::Lot, names);
    renameMember(part, "model", NameKind::Model, names);
    renameMember(part, "groups", NameKind::Group, names);
}

void renameFit(Value& body, Names& names) {
    renameMember(body, "position", NameKind::Place, names);
    if (Value* part = body.find("part")) {
        renamePart(*part, names);
    }
}

void renameReprocess(Value& body, Names& names) {
    renameMember(body, "positions", NameKind::Place, names);
    Value* parts = body.find("parts");
    if (parts == nullptr || parts->array() == nullptr) {
        return;
    }
    for (Value& part : *parts->array()) {
        renameMember(part, "position", NameKind::Place, names);
        renameMember(part, "serial", NameKind::Serial, names);
    }
}

void renameNotice(Value& body, Names& names) {
    renameMember(body, "key", NameKind::Notice, names);
    if (Value* match = body.find("match")) {
        renameMember(*match, "position", NameKind::Place, names);
        renameMember(*match, "lots", NameKind::Lot, names);
        renameMember(*match, "serials", NameKind::Serial, names);
        renameMember(*match, "part_models", NameKind::Model, names);
        renameMember(*match, "device_models", NameKind::Model, names);
        renameMember(*match, "devices", NameKind::Device, names);
    }
}

void renameWaive(Value& body, Names& names) {
    const Value* finding = body.find("finding");
    if (finding == nullptr || finding->string() == nullptr) {
        return;
    }
    if (const auto kind = kindAfter(*finding->string())) {
        renameMember(body, "subject", *kind, names);
    }
}

void renameAdopt(Value& body, Names& names) {
    renameMember(body, "approved_by", NameKind::Person, names);
    if (Value* text = body.find("text"); text != nullptr && text->string() != nullptr) {
        *text = renamedRulebook(*text->string(), names);
    }
}

struct Member {
    const char* name;
    NameKind kind;
};

// The kinds whose bodies hold names as plain members.
const std::map<std::string_view, std::vector<Member>>& plainBodies() {
    static const std::map<std::string_view, std::vector<Member>> bodies{
        {"person", {{"person", NameKind::Person}, {"roles", NameKind::Role}}},
        {"enrol",
         {{"model", NameKind::Model},
          {"groups", NameKind::Group},
          {"features", NameKind::Feature}}},
        {"group", {{"group", NameKind::Group}}},
        {"remove", {{"position", NameKind::Place}}},
        {"check",
         {{"check", NameKind::Check},
          {"measures", NameKind::Measure},
          {"conditions", NameKind::Condition}}},
        {"alarm", {{"code", NameKind::Alarm}}},
        {"fault", {{"code", NameKind::Fault}}},
        {"clear", {{"code", NameKind::Fault}}},
        {"withdraw", {{"hold", NameKind::Hold}}},
        {"release", {{"hold", NameKind::Hold}}},
        {"notice_done", {{"key", NameKind::Notice}}},
        {"service", {{"service", NameKind::Service}}},
        {"use_start", {{"group", NameKind::Group}}},
        {"sign", {{"heads", NameKind::Station}}},
    };
    return bodies;
}

void renameBody(std::string_view kind, Value& body, Names& names) {
    static const std::map<std::string_view, std::function<void(Value&, Names&)>> others{
        {"adopt", renameAdopt}, {"notice", renameNotice},       {"fit", renameFit},
        {"waive", renameWaive}, {"reprocess", renameReprocess},
    };
    if (const auto plain = plainBodies().find(kind); plain != plainBodies().end()) {
        for (const Member& member : plain->second) {
            renameMember(body, member.name, member.kind, names);
        }
    } else if (const auto other = others.find(kind); other != others.end()) {
        other->second(body, names);
    }
    renameRecordName(body, "target", names);
}

}  // namespace

Value renamedRecord(const Value& record, Names& names) {
    Value result = record;
    renameMember(result, "station", NameKind::Station, names);
    renameMember(result, "device", NameKind::Device, names);
    for (const char* name : {"by", "done_by", "witness"}) {
        renameMember(result, name, NameKind::Person, names);
    }
    renameRecordName(result, "moved_from", names);
    const Value* kind = result.find("kind");
    Value* body = result.find("body");
    if (kind != nullptr && kind->string() != nullptr && body != nullptr) {
        renameBody(*kind->string(), *body, names);
    }
    return result;
}

}  // namespace conformance
