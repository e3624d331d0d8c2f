// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Limits of measures.
#include "rules/rulebook_limits.h"

#include <algorithm>
#include <set>

namespace rules {

namespace {

Limit readLimitByGroup(const Field& field, Reading& reading) {
    Limit limit;
    for (const auto& member : membersOf(field, reading.faults).value_or(Fields{})) {
        if (!reading.names.groups.contains(member.name)) {
            reading.faults.add(RemarkCode::UnknownGroup, member.namePlace, member.name);
        }
        if (const auto number = readNumber(member, reading.faults)) {
            limit.byGroup.emplace(member.name, *number);
        }
    }
    return limit;
}

std::optional<Limit> readLimit(const Field& field, Reading& reading) {
    if (field.node->is_table()) {
        return readLimitByGroup(field, reading);
    }
    if (!field.node->is_number()) {
        reading.faults.add(RemarkCode::WrongType, field.place, "number or table");
        return std::nullopt;
    }
    const auto number = readNumber(field, reading.faults);
    return number ? std::optional(Limit{*number, {}}) : std::nullopt;
}

const double* limitFor(const Limit& limit, const std::string& group) {
    if (limit.forAll) {
        return &*limit.forAll;
    }
    const auto found = limit.byGroup.find(group);
    return found == limit.byGroup.end() ? nullptr : &found->second;
}

std::set<std::string> groupsOf(const Limit& a, const Limit& b) {
    std::set<std::string> groups;
    for (const auto* limit : {&a, &b}) {
        for (const auto& [group, number] : limit->byGroup) {
            groups.insert(group);
        }
    }
    return groups;
}

// The entry that sets a limit for a group, or the limit itself if it is for all.
Place entryPlace(const Field& field, const std::string& group, RemarkList& faults) {
    if (field.node->is_table()) {
        for (const auto& member : membersOf(field, faults).value_or(Fields{})) {
            if (member.name == group) {
                return member.place;
            }
        }
    }
    return field.place;
}

void refuseMinOverMax(const Field& min, const Field& max, const MeasureRule& measure,
                      RemarkList& faults) {
    auto groups = groupsOf(*measure.min, *measure.max);
    if (measure.min->forAll && measure.max->forAll) {
        groups.insert("");
    }
    for (const auto& group : groups) {
        const auto* low = limitFor(*measure.min, group);
        const auto* high = limitFor(*measure.max, group);
        if (low && high && *low > *high) {
            const auto& field = max.node->is_table() ? max : (min.node->is_table() ? min : max);
            faults.add(RemarkCode::MinOverMax, entryPlace(field, group, faults), group);
        }
    }
}

}  // namespace

void readLimits(TableReader& table, MeasureRule& measure, Reading& reading) {
    const auto read = [&](const Field& field, RemarkList&) { return readLimit(field, reading); };
    const bool hasMin = table.take("min", measure.min, read);
    const bool hasMax = table.take("max", measure.max, read);
    if (hasMin && hasMax) {
        refuseMinOverMax(*table.find("min"), *table.find("max"), measure, reading.faults);
    }
}

bool allowsGroup(const Condition& condition, const std::string& group) {
    return std::ranges::all_of(condition, [&](const ConditionEntry& entry) {
        const auto& values = entry.values;
        const std::variant<bool, std::string> wanted = group;
        return entry.kind != PathKind::Group || std::ranges::find(values, wanted) != values.end();
    });
}

std::vector<std::string> groupsLeftOut(const Limit& limit, const Condition& appliesWhen,
                                       const NamesGiven::Keys& groups) {
    std::vector<std::string> left;
    if (limit.forAll) {
        return left;
    }
    for (const auto& group : groups) {
        if (!limitFor(limit, group) && allowsGroup(appliesWhen, group)) {
            left.push_back(group);
        }
    }
    return left;
}

void refuseLackingLimits(TableReader& table, const MeasureRule& measure,
                         const Condition& appliesWhen, Reading& reading) {
    if (!measure.required || reading.faults.isFull()) {
        return;
    }
    for (const auto& [name, limit] :
         {std::pair("min", measure.min), std::pair("max", measure.max)}) {
        if (!limit) {
            continue;
        }
        const auto place = table.find(name)->place;
        for (const auto& group : groupsLeftOut(*limit, appliesWhen, reading.names.groups)) {
            reading.faults.add(RemarkCode::LimitLacksGroup, place, group);
        }
    }
}

}  // namespace rules
