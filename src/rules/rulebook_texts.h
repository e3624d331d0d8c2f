// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Labels, advice and other words for people in a rulebook's text, and the shape of its sections:
// tables by key. Knows no section by name but [labels].
#pragma once

#include "logbook/text.h"
#include "rules/rulebook.h"
#include "rules/toml_field.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace rules {

// A text, or a table of texts by language.
[[nodiscard]] std::optional<Localized> readLocalized(const Field& field, RemarkList& faults);
[[nodiscard]] std::optional<std::vector<Localized>> readSheet(const Field& field,
                                                              RemarkList& faults);

// `label` and `advice`.
void readNames(TableReader& table, Named& named);

// [labels]: names of keys that have no table.
void readLabels(const Field& field, Rulebook& rulebook, RemarkList& faults);

// A section such as [checks.KEY]: `readItem(TableReader&, Item&)` for each, by key. BadKey; TooMany
// at the first in the text beyond `most`.
template <class Item, class ReadItem>
std::vector<Item> readItems(const Field& section, RemarkList& faults, ReadItem readItem,
                            std::size_t most = mostListed) {
    std::vector<Item> items;
    const auto members = membersOf(section, faults).value_or(Fields{});
    refuseMoreThan(most, members, faults);
    for (const auto& member : members) {
        if (!logbook::isKey(member.name)) {
            faults.add(RemarkCode::BadKey, member.namePlace, member.name);
        }
        TableReader table(member, faults);
        if (!table.isTable()) {
            continue;
        }
        Item& item = items.emplace_back();
        item.key = member.name;
        readNames(table, item);
        readItem(table, item);
        table.refuseOthers();
    }
    return items;
}

}  // namespace rules
