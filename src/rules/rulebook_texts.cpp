// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Words for people in a rulebook's text.
#include "rules/rulebook_texts.h"

namespace rules {

namespace {

using Labels = std::map<std::string, Localized, std::less<>>;

Labels readLabelsOf(const Field& field, RemarkList& faults) {
    Labels labels;
    for (const auto& member : membersOf(field, faults).value_or(Fields{})) {
        if (!logbook::isKey(member.name)) {
            faults.add(RemarkCode::BadKey, member.namePlace, member.name);
        }
        if (auto text = readLocalized(member, faults)) {
            labels.emplace(member.name, std::move(*text));
        }
    }
    return labels;
}

}  // namespace

std::optional<Localized> readLocalized(const Field& field, RemarkList& faults) {
    if (const auto* text = field.node->as_string()) {
        return Localized{{"", text->get()}};
    }
    if (!field.node->is_table()) {
        faults.add(RemarkCode::WrongType, field.place, "text or table");
        return std::nullopt;
    }
    Localized byLanguage;
    for (const auto& member : membersOf(field, faults).value_or(Fields{})) {
        if (isReservedForLater(member.name)) {
            continue;
        }
        if (auto text = readText(member, faults)) {
            byLanguage.emplace(member.name, std::move(*text));
        }
    }
    return byLanguage;
}

std::optional<std::vector<Localized>> readSheet(const Field& field, RemarkList& faults) {
    const auto elements = elementsOf(field, faults);
    if (!elements) {
        return std::nullopt;
    }
    std::vector<Localized> lines;
    for (const auto& element : *elements) {
        if (auto line = readLocalized(element, faults)) {
            lines.push_back(std::move(*line));
        }
    }
    return lines;
}

void readNames(TableReader& table, Named& named) {
    table.take("label", named.label, readLocalized);
    table.take("advice", named.advice, readLocalized);
}

void readLabels(const Field& field, Rulebook& rulebook, RemarkList& faults) {
    TableReader table(field, faults);
    const auto read = [&](std::string_view name, Labels& labels) {
        if (const auto found = table.find(name)) {
            labels = readLabelsOf(*found, faults);
        }
    };
    read("roles", rulebook.roleLabels);
    read("conditions", rulebook.conditionLabels);
    read("features", rulebook.featureLabels);
    read("alarms", rulebook.alarmLabels);
    table.refuseOthers();
}

}  // namespace rules
