// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// TOML text to a rulebook: the guards, the parser, the sections, and what they say of each other.
#include "rules/rulebook_reader.h"

#include "rules/condition_reader.h"
#include "rules/rulebook_checks.h"
#include "rules/rulebook_lint.h"
#include "rules/rulebook_references.h"
#include "rules/rulebook_sections.h"
#include "rules/rulebook_texts.h"
#include "rules/toml_field.h"
#include "rules/toml_guard.h"

#include <utility>

namespace rules {

namespace {

constexpr std::size_t longestText = 1024 * 1024;

RulebookReading refusal(RemarkCode code, TextPlace place, std::string detail) {
    RulebookReading reading;
    reading.faults.push_back({code, "", place.line, place.column, std::move(detail)});
    return reading;
}

std::optional<RulebookReading> refusalBeforeParsing(std::string_view text) {
    if (text.size() > longestText) {
        return refusal(RemarkCode::TooLong, {}, std::to_string(text.size()));
    }
    if (const auto bad = firstBadByte(text)) {
        return refusal(RemarkCode::NotUtf8, textPlaceOf(text, *bad), "");
    }
    if (const auto deep = firstDeepKey(text)) {
        return refusal(RemarkCode::NotToml, textPlaceOf(text, *deep),
                       "a key of too many names joined by dots");
    }
    return std::nullopt;
}

void readHead(TableReader& table, Rulebook& rulebook, const ZoneSource& zones) {
    auto& faults = table.faults();
    if (const auto field = table.require("format")) {
        const auto* format = field->node->as_integer();
        if (!format) {
            faults.add(RemarkCode::WrongType, field->place, "whole number");
        } else if (format->get() != 1) {
            faults.add(RemarkCode::BadFormat, field->place, std::to_string(format->get()));
        }
    }
    table.takeRequired("title", rulebook.title, readText);
    table.takeRequired("edition", rulebook.edition, readText);
    std::string zone;
    if (table.takeRequired("time_zone", zone, readText)) {
        rulebook.zone = zones(zone);
        if (!rulebook.zone) {
            faults.add(RemarkCode::BadZone, table.find("time_zone")->place, zone);
        }
    }
    table.take("late_entry_after", rulebook.lateEntryAfter, readDuration);
    table.take("clock_tolerance", rulebook.clockTolerance, readDuration);
    table.take("max_waiver", rulebook.maxWaiver, readDuration);
    table.take("confirm_every", rulebook.confirmEvery, readDuration);
}

void readGroups(TableReader& table, Rulebook& rulebook, Reading& reading) {
    const auto field = table.find("groups");
    if (field) {
        rulebook.groups = readGroupSection(*field, reading);
    }
    if (!field || (field->node->is_table() && field->node->as_table()->empty())) {
        Place place = field ? field->place : table.field().place;
        place.path = "groups";
        reading.faults.add(RemarkCode::NoGroup, place);
    }
}

void readSections(TableReader& table, Rulebook& rulebook, Reading& reading) {
    const auto read = [&](std::string_view name, auto& target, auto readSection) {
        if (const auto field = table.find(name)) {
            target = readSection(*field, reading);
        }
    };
    readGroups(table, rulebook, reading);
    read("positions", rulebook.positions, readPositionSection);
    read("choices", rulebook.choices, readChoiceSection);
    read("conflicts", rulebook.conflicts, readConflictSection);
    read("checks", rulebook.checks, readCheckSection);
    read("services", rulebook.services, readServiceSection);
    read("holds", rulebook.holds, readHoldSection);
    read("faults", rulebook.faults, readFaultSection);
    read("authority", rulebook.authority, readAuthority);
    if (const auto labels = table.find("labels")) {
        readLabels(*labels, rulebook, reading.faults);
    }
}

RulebookReading readParsed(const toml::table& root, const ZoneSource& zones) {
    Reading reading{namesGivenBy(root), {}};
    Rulebook rulebook;
    TableReader table(rootField(root), reading.faults);
    readHead(table, rulebook, zones);
    readSections(table, rulebook, reading);
    table.refuseOthers();
    refuseCycles(rulebook, root, reading.faults);
    if (const auto choices = table.find("choices")) {
        refuseTakenKeys(*choices, root, reading.faults);
    }
    RemarkList warnings;
    warnOf(rulebook, root, reading.names, warnings);
    RulebookReading result{nullptr, reading.faults.sorted(), warnings.sorted()};
    if (result.faults.empty()) {
        rulebook.indexVoidings();
        result.rulebook = std::make_shared<const Rulebook>(std::move(rulebook));
    }
    return result;
}

}  // namespace

RulebookReading readRulebook(std::string_view text, const ZoneSource& zones) {
    if (auto refused = refusalBeforeParsing(text)) {
        return std::move(*refused);
    }
    try {
        return readParsed(toml::parse(text), zones);
    } catch (const toml::parse_error& error) {
        const auto begin = error.source().begin;
        return refusal(RemarkCode::NotToml,
                       {static_cast<int>(begin.line), static_cast<int>(begin.column)},
                       std::string(error.description()));
    }
}

}  // namespace rules
