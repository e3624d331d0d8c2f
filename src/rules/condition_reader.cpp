// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of conditions and events, checked.
#include "rules/condition_reader.h"

#include "logbook/text.h"

namespace rules {

namespace {

NamesGiven::Keys keysOf(const toml::table& root, std::string_view section) {
    NamesGiven::Keys keys;
    if (const auto* table = root.get_as<toml::table>(section)) {
        for (const auto& [key, node] : *table) {
            keys.emplace(key.str());
        }
    }
    return keys;
}

bool wantsFlag(PathKind kind) {
    return kind == PathKind::Feature || kind == PathKind::Fitted || kind == PathKind::InUse ||
           kind == PathKind::Precautions;
}

// The path alone; whether its position is known is another question.
std::optional<ConditionEntry> parsePath(std::string_view path) {
    if (path == "group") {
        return ConditionEntry{PathKind::Group, "", "", {}};
    }
    if (path == "model") {
        return ConditionEntry{PathKind::Model, "", "", {}};
    }
    if (path == "in_use") {
        return ConditionEntry{PathKind::InUse, "", "", {}};
    }
    if (path == "last_use.precautions") {
        return ConditionEntry{PathKind::Precautions, "", "", {}};
    }
    const auto dot = path.find('.');
    const auto first = path.substr(0, dot);
    const auto second = dot == std::string_view::npos ? "" : path.substr(dot + 1);
    if (!logbook::isKey(first) || !logbook::isKey(second)) {
        return std::nullopt;
    }
    if (first == "feature") {
        return ConditionEntry{PathKind::Feature, std::string(second), "", {}};
    }
    if (isReservedForPaths(first)) {
        return std::nullopt;
    }
    if (second == "fitted") {
        return ConditionEntry{PathKind::Fitted, std::string(first), "", {}};
    }
    return ConditionEntry{PathKind::Attribute, std::string(first), std::string(second), {}};
}

void readValue(const Field& field, ConditionEntry& entry, Reading& reading) {
    if (wantsFlag(entry.kind)) {
        if (const auto flag = readFlag(field, reading.faults)) {
            entry.values.emplace_back(*flag);
        }
        return;
    }
    auto text = readText(field, reading.faults);
    if (!text) {
        return;
    }
    if (entry.kind == PathKind::Group && !reading.names.groups.contains(*text)) {
        reading.faults.add(RemarkCode::UnknownGroup, field.place, *text);
    }
    entry.values.emplace_back(std::move(*text));
}

void readValues(const Field& field, ConditionEntry& entry, Reading& reading) {
    const auto* list = field.node->as_array();
    if (!list) {
        readValue(field, entry, reading);
        return;
    }
    if (list->empty()) {
        reading.faults.add(RemarkCode::WrongType, field.place, "list with an element");
        return;
    }
    const auto elements = elementsOf(field, reading.faults).value();
    for (const auto& element : elements) {
        readValue(element, entry, reading);
    }
}

std::optional<ConditionEntry> readEntry(const Field& field, Reading& reading) {
    // A dotted path without quotation marks is a table within a table to TOML.
    auto entry = field.node->is_table() ? std::nullopt : parsePath(field.name);
    if (!entry) {
        reading.faults.add(RemarkCode::BadPath, field.namePlace, field.name);
        return std::nullopt;
    }
    const bool names = entry->kind == PathKind::Fitted || entry->kind == PathKind::Attribute;
    if (names && !reading.names.positions.contains(entry->name)) {
        reading.faults.add(RemarkCode::UnknownPosition, field.namePlace, entry->name);
    }
    readValues(field, *entry, reading);
    return entry;
}

std::optional<std::vector<std::string>> readKnown(const Field& field, RemarkList& faults,
                                                  const NamesGiven::Keys& known, RemarkCode code) {
    const auto elements = elementsOf(field, faults);
    if (!elements) {
        return std::nullopt;
    }
    std::vector<std::string> names;
    for (const auto& element : *elements) {
        auto name = readText(element, faults);
        if (name && !known.contains(*name)) {
            faults.add(code, element.place, *name);
        } else if (name) {
            names.push_back(std::move(*name));
        }
    }
    return names;
}

}  // namespace

NamesGiven namesGivenBy(const toml::table& root) {
    return {keysOf(root, "groups"), keysOf(root, "positions"), keysOf(root, "checks"),
            keysOf(root, "services")};
}

std::optional<Condition> readCondition(const Field& field, Reading& reading) {
    const auto members = membersOf(field, reading.faults);
    if (!members) {
        return std::nullopt;
    }
    refuseMoreThan(mostListed, *members, reading.faults);
    Condition condition;
    for (const auto& member : *members) {
        if (auto entry = readEntry(member, reading)) {
            condition.push_back(std::move(*entry));
        }
    }
    return condition;
}

std::optional<Event> readEvent(const Field& field, Reading& reading) {
    const auto text = readText(field, reading.faults);
    if (!text) {
        return std::nullopt;
    }
    auto event = parseEvent(*text);
    if (!event) {
        reading.faults.add(RemarkCode::BadEvent, field.place, *text);
        return std::nullopt;
    }
    const auto& subject = event->subject;
    if (ofPosition(event->kind) && subject != "*" && !reading.names.positions.contains(subject)) {
        reading.faults.add(RemarkCode::UnknownPosition, field.place, subject);
    }
    if (event->kind == EventKind::Service && subject != "*" &&
        !reading.names.services.contains(subject)) {
        reading.faults.add(RemarkCode::UnknownService, field.place, subject);
    }
    return event;
}

std::optional<std::vector<std::string>> readPositions(const Field& field, Reading& reading) {
    return readKnown(field, reading.faults, reading.names.positions, RemarkCode::UnknownPosition);
}

std::optional<std::vector<std::string>> readChecks(const Field& field, Reading& reading) {
    return readKnown(field, reading.faults, reading.names.checks, RemarkCode::UnknownCheck);
}

std::optional<std::string> readPosition(const Field& field, Reading& reading) {
    auto name = readText(field, reading.faults);
    if (name && !reading.names.positions.contains(*name)) {
        reading.faults.add(RemarkCode::UnknownPosition, field.place, *name);
        return std::nullopt;
    }
    return name;
}

bool isReservedForPaths(std::string_view name) {
    return name == "feature" || name == "group" || name == "model" || name == "in_use" ||
           name == "last_use";
}

}  // namespace rules
