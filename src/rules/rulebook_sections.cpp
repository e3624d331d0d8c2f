// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Groups, positions, choices, conflicts, services, holds, faults and authority.
#include "rules/rulebook_sections.h"

#include "rules/rulebook_texts.h"

#include <algorithm>
#include <array>
#include <limits>

namespace rules {

namespace {

using logbook::Kind;

constexpr std::array kindsWithAuthority{
    Kind::Adopt, Kind::Person, Kind::Notice, Kind::Enrol,   Kind::Retire,
    Kind::Reprocess, Kind::Check, Kind::Clear, Kind::Release, Kind::Waive,
    Kind::NoticeDone, Kind::Service, Kind::Strike, Kind::Review, Kind::Sign,
};

// Of a unit with no group selected there is a plan for each of its groups.
constexpr std::size_t mostGroups = 30;

// What is lacking is counted unit by unit, and no muster asks for more.
constexpr int mostPar = 999;

std::optional<int> readPar(const Field& field, RemarkList& faults) {
    const auto* whole = field.node->as_integer();
    if (whole && whole->get() > mostPar) {
        faults.add(RemarkCode::TooLarge, field.place, std::to_string(mostPar));
        return std::nullopt;
    }
    return readCount(field, faults);
}

std::optional<logbook::Reuse> readReuse(const Field& field, RemarkList& faults) {
    const auto text = readText(field, faults);
    const auto reuse = text ? logbook::reuseOf(*text) : std::nullopt;
    if (text && !reuse) {
        faults.add(RemarkCode::BadWord, field.place,
                   "single_use, single_patient, reusable, permanent");
    }
    return reuse;
}

std::optional<logbook::Level> readLevel(const Field& field, RemarkList& faults) {
    const auto text = readText(field, faults);
    const auto level = text ? logbook::levelOf(*text) : std::nullopt;
    if (text && !level) {
        faults.add(RemarkCode::BadWord, field.place, "low, high, sterile");
    }
    return level;
}

std::optional<int> readGraceDays(const Field& field, RemarkList& faults) {
    constexpr std::int64_t dayMs = 86'400'000;
    const auto grace = readDuration(field, faults);
    if (!grace) {
        return std::nullopt;
    }
    // The longest duration is a thousand years, so that its days fit.
    if (grace->ms % dayMs != 0 || grace->ms / dayMs > std::numeric_limits<int>::max()) {
        faults.add(RemarkCode::BadGrace, field.place, field.node->as_string()->get());
        return std::nullopt;
    }
    return static_cast<int>(grace->ms / dayMs);
}

void readReprocessing(TableReader& table, Position& position) {
    table.take("reprocess_level", position.reprocessLevel, readLevel);
    table.take("max_reprocess", position.maxReprocess, readCount);
    const bool isStated = table.find("reprocess_takes").has_value();
    const bool isRead = table.take("reprocess_takes", position.reprocessTakes, readDuration);
    position.reprocessAttended = position.reprocessTakes;
    const bool hasAttended =
        table.take("reprocess_attended", position.reprocessAttended, readDuration);
    const bool takesKnown = isRead || !isStated;
    if (hasAttended && takesKnown && position.reprocessAttended > position.reprocessTakes) {
        table.faults().add(RemarkCode::AttendedOverTakes,
                           table.find("reprocess_attended")->place, "reprocess_takes");
    }
}

void readPosition(TableReader& table, Position& position, Reading& reading) {
    if (isReservedForPaths(position.key)) {
        reading.faults.add(RemarkCode::ReservedPosition, table.field().namePlace, position.key);
    }
    table.take("required", position.required, readFlag);
    table.take("required_when", position.requiredWhen, [&](const Field& field, RemarkList&) {
        return readCondition(field, reading);
    });
    table.take("match_group", position.matchGroup, readFlag);
    table.take("change_after", position.changeAfter, readDuration);
    table.take("change_after_use", position.changeAfterUse, readDuration);
    table.take("reuse", position.reuse, readReuse);
    table.take("takes", position.takes, readDuration);
    table.take("spare", position.spare, readFlag);
    readReprocessing(table, position);
}

void refuseTwins(const Field& field, RemarkList& faults) {
    RemarkList told;  // what is wrong with the list itself is among the faults already
    const auto elements = elementsOf(field, told).value();
    std::map<std::string, std::string> first;
    for (const auto& element : elements) {
        const auto* text = element.node->as_string();
        if (!text) {
            continue;
        }
        const auto [other, isNew] = first.emplace(text->get(), element.place.path);
        if (!isNew) {
            faults.add(RemarkCode::KeyTaken, element.place, other->second);
        }
    }
}

void readChoice(TableReader& table, Choice& choice, Reading& reading) {
    const auto field = table.require("positions");
    auto positions = field ? readPositions(*field, reading) : std::nullopt;
    if (!positions) {
        return;
    }
    choice.positions = std::move(*positions);
    if (field->node->as_array()->empty()) {
        reading.faults.add(RemarkCode::WrongType, field->place, "list with an element");
    }
    refuseTwins(*field, reading.faults);
}

void readService(TableReader& table, Service& service, Reading& reading) {
    table.take("applies_when", service.appliesWhen, [&](const Field& field, RemarkList&) {
        return readCondition(field, reading);
    });
    table.take("every", service.every, readInterval);
    table.take("grace", service.graceDays, readGraceDays);
    table.take("before_first_use", service.beforeFirstUse, readFlag);
    const auto dueAfter = table.find("due_after");
    const auto events = dueAfter ? elementsOf(*dueAfter, reading.faults) : std::nullopt;
    for (const auto& element : events.value_or(Fields{})) {
        if (auto event = readEvent(element, reading)) {
            service.dueAfter.push_back(std::move(*event));
        }
    }
}

}  // namespace

std::vector<Group> readGroupSection(const Field& section, Reading& reading) {
    const auto readGroup = [](TableReader& table, Group& group) {
        table.take("par", group.par, readPar);
    };
    return readItems<Group>(section, reading.faults, readGroup, mostGroups);
}

std::vector<Position> readPositionSection(const Field& section, Reading& reading) {
    return readItems<Position>(section, reading.faults, [&](TableReader& table, Position& item) {
        readPosition(table, item, reading);
    });
}

std::vector<Choice> readChoiceSection(const Field& section, Reading& reading) {
    return readItems<Choice>(section, reading.faults, [&](TableReader& table, Choice& choice) {
        readChoice(table, choice, reading);
    });
}

std::vector<Conflict> readConflictSection(const Field& section, Reading& reading) {
    const auto condition = [&](const Field& field, RemarkList&) {
        return readCondition(field, reading);
    };
    return readItems<Conflict>(section, reading.faults, [&](TableReader& table, Conflict& item) {
        table.takeRequired("when", item.when, condition);
    });
}

std::vector<Service> readServiceSection(const Field& section, Reading& reading) {
    return readItems<Service>(section, reading.faults, [&](TableReader& table, Service& service) {
        readService(table, service, reading);
    });
}

std::vector<Hold> readHoldSection(const Field& section, Reading& reading) {
    return readItems<Hold>(section, reading.faults, [](TableReader& table, Hold& hold) {
        table.take("release_by", hold.releaseBy, readKeys);
        table.take("sheet", hold.sheet, readSheet);
    });
}

std::vector<FaultRule> readFaultSection(const Field& section, Reading& reading) {
    return readItems<FaultRule>(section, reading.faults, [](TableReader& table, FaultRule& fault) {
        table.take("blocking", fault.blocking, readFlag);
    });
}

std::map<Kind, std::vector<std::string>> readAuthority(const Field& section, Reading& reading) {
    std::map<Kind, std::vector<std::string>> authority;
    for (const auto& member : membersOf(section, reading.faults).value_or(Fields{})) {
        const auto kind = logbook::kindOf(member.name);
        const bool isAllowed = kind && std::ranges::find(kindsWithAuthority, *kind) !=
                                           kindsWithAuthority.end();
        if (isAllowed) {
            authority[*kind] =
                readKeys(member, reading.faults).value_or(std::vector<std::string>{});
        } else if (!isReservedForLater(member.name)) {
            reading.faults.add(RemarkCode::BadAuthority, member.namePlace, member.name);
        }
    }
    return authority;
}

}  // namespace rules
