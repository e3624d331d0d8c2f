// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Checks, what voids them and what they measure.
#include "rules/rulebook_checks.h"

#include "logbook/text.h"
#include "logbook/unit.h"
#include "rules/rulebook_limits.h"
#include "rules/rulebook_texts.h"

namespace rules {

namespace {

std::optional<Blocks> readBlocks(const Field& field, RemarkList& faults) {
    if (const auto* flag = field.node->as_boolean()) {
        return flag->get() ? Blocks::Yes : Blocks::No;
    }
    const auto* text = field.node->as_string();
    if (text && text->get() == "start") {
        return Blocks::Start;
    }
    faults.add(RemarkCode::BadWord, field.place, "true, false, \"start\"");
    return std::nullopt;
}

std::optional<Breach> readBreach(const Field& field, RemarkList& faults) {
    const auto text = readText(field, faults);
    if (text == "fail") {
        return Breach::Fail;
    }
    if (text == "discount") {
        return Breach::Discount;
    }
    if (text) {
        faults.add(RemarkCode::BadWord, field.place, "fail, discount");
    }
    return std::nullopt;
}

std::optional<std::string> readUnit(const Field& field, RemarkList& faults) {
    auto text = readText(field, faults);
    if (text && !logbook::isUnit(*text)) {
        faults.add(RemarkCode::BadUnit, field.place, *text);
        return std::nullopt;
    }
    return text;
}

// `only` names an attribute by "different A".
void readOnly(const Field& field, VoidedBy& entry, RemarkList& faults) {
    constexpr std::string_view different = "different ";
    const auto text = readText(field, faults);
    if (!text) {
        return;
    }
    const auto attribute = text->starts_with(different) ? text->substr(different.size()) : "";
    if (*text == "new_part") {
        entry.only = Only::NewPart;
    } else if (logbook::isKey(attribute)) {
        entry.only = Only::DifferentAttribute;
        entry.attribute = attribute;
    } else {
        faults.add(RemarkCode::BadOnly, field.place, *text);
    }
}

void readVoidedBy(const Field& field, Check& check, Reading& reading) {
    const auto condition = [&](const Field& found, RemarkList&) {
        return readCondition(found, reading);
    };
    TableReader table(field, reading.faults);
    VoidedBy entry;
    const bool hasEvent = table.takeRequired(
        "event", entry.event, [&](const Field& found, RemarkList&) {
            return readEvent(found, reading);
        });
    if (const auto only = table.find("only")) {
        readOnly(*only, entry, reading.faults);
        if (hasEvent && entry.event.kind != EventKind::Fit) {
            reading.faults.add(RemarkCode::OnlyWithoutFit, only->place, toText(entry.event));
        }
    }
    table.take("when", entry.when, condition);
    table.take("unless", entry.unless, condition);
    table.refuseOthers();
    if (hasEvent) {
        check.voidedBy.push_back(std::move(entry));
    }
}

void readNotWith(const Field& field, Check& check, Reading& reading) {
    TableReader table(field, reading.faults);
    NotWith entry;
    const bool hasPosition = table.takeRequired(
        "position", entry.position, [&](const Field& found, RemarkList&) {
            return readPosition(found, reading);
        });
    table.take("when", entry.when, [&](const Field& found, RemarkList&) {
        return readCondition(found, reading);
    });
    table.refuseOthers();
    if (hasPosition) {
        check.notWith.push_back(std::move(entry));
    }
}

std::optional<Event> readWaitedFor(const Field& field, Reading& reading) {
    auto event = readEvent(field, reading);
    if (event && event->kind != EventKind::Fit && event->kind != EventKind::PowerOn) {
        reading.faults.add(RemarkCode::BadEvent, field.place, toText(*event));
        return std::nullopt;
    }
    return event;
}

void readNotBefore(const Field& field, Check& check, Reading& reading) {
    TableReader table(field, reading.faults);
    NotBefore entry;
    const bool hasEvent = table.takeRequired(
        "event", entry.event, [&](const Field& found, RemarkList&) {
            return readWaitedFor(found, reading);
        });
    const bool hasWait = table.takeRequired("wait", entry.wait, readDuration);
    table.refuseOthers();
    if (hasEvent && hasWait) {
        check.notBefore.push_back(std::move(entry));
    }
}

template <class ReadElement>
void readList(TableReader& table, std::string_view name, ReadElement readElement) {
    if (const auto field = table.find(name)) {
        const auto elements = elementsOf(*field, table.faults());
        for (const auto& element : elements.value_or(Fields{})) {
            readElement(element);
        }
    }
}

void readMeasure(TableReader& table, MeasureRule& measure, const Check& check, Reading& reading) {
    table.takeRequired("unit", measure.unit, readUnit);
    table.take("required", measure.required, readFlag);
    table.take("breach", measure.breach, readBreach);
    readLimits(table, measure, reading);
    refuseLackingLimits(table, measure, check.appliesWhen, reading);
}

void readTimes(TableReader& table, Check& check) {
    const bool hasTakes = table.takeRequired("takes", check.takes, readDuration);
    check.attended = check.takes;
    const bool hasAttended = table.take("attended", check.attended, readDuration);
    if (hasTakes && hasAttended && check.attended > check.takes) {
        table.faults().add(RemarkCode::AttendedOverTakes, table.find("attended")->place, "takes");
    }
    table.take("valid_for", check.validFor, readDuration);
}

void readFlags(TableReader& table, Check& check) {
    table.take("blocks", check.blocks, readBlocks);
    table.take("fail_blocks", check.failBlocks, readFlag);
    table.take("waivable", check.waivable, readFlag);
    table.take("during_use", check.duringUse, readFlag);
    table.take("needs_second", check.needsSecond, readFlag);
}

void readLists(TableReader& table, Check& check, Reading& reading) {
    table.take("needs", check.needs, readKeys);
    table.take("needs_match", check.needsMatch, [&](const Field& field, RemarkList&) {
        return readPositions(field, reading);
    });
    table.take("after", check.after, [&](const Field& field, RemarkList&) {
        return readChecks(field, reading);
    });
    readList(table, "not_with",
             [&](const Field& field) { readNotWith(field, check, reading); });
    readList(table, "voided_by",
             [&](const Field& field) { readVoidedBy(field, check, reading); });
    readList(table, "not_before",
             [&](const Field& field) { readNotBefore(field, check, reading); });
}

void readCheck(TableReader& table, Check& check, Reading& reading) {
    readTimes(table, check);
    readFlags(table, check);
    table.take("applies_when", check.appliesWhen, [&](const Field& field, RemarkList&) {
        return readCondition(field, reading);
    });
    readLists(table, check, reading);
    if (const auto calibrates = table.find("calibrates")) {
        // Of use to whoever exchanges data; nothing here asks what it holds.
        static_cast<void>(membersOf(*calibrates, reading.faults));
    }
    if (const auto measures = table.find("measures")) {
        check.measures = readItems<MeasureRule>(
            *measures, reading.faults, [&](TableReader& inner, MeasureRule& measure) {
                readMeasure(inner, measure, check, reading);
            });
    }
}

}  // namespace

std::vector<Check> readCheckSection(const Field& section, Reading& reading) {
    return readItems<Check>(section, reading.faults, [&](TableReader& table, Check& check) {
        readCheck(table, check, reading);
    });
}

}  // namespace rules
