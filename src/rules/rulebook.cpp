// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking up by key in a policy edition. Knows nothing of where the edition came from.
#include "rules/rulebook.h"

#include <algorithm>

namespace rules {

namespace {

template <class Item>
const Item* find(const std::vector<Item>& sorted, std::string_view key) {
    const auto keyOf = [](const Item& item) -> std::string_view { return item.key; };
    const auto found = std::ranges::lower_bound(sorted, key, {}, keyOf);
    return found != sorted.end() && found->key == key ? &*found : nullptr;
}

}  // namespace

const Group* Rulebook::group(std::string_view key) const { return find(groups, key); }
const Position* Rulebook::position(std::string_view key) const { return find(positions, key); }
const Choice* Rulebook::choice(std::string_view key) const { return find(choices, key); }
const Conflict* Rulebook::conflict(std::string_view key) const { return find(conflicts, key); }
const Check* Rulebook::check(std::string_view key) const { return find(checks, key); }
const Service* Rulebook::service(std::string_view key) const { return find(services, key); }
const Hold* Rulebook::hold(std::string_view key) const { return find(holds, key); }
const FaultRule* Rulebook::fault(std::string_view key) const { return find(faults, key); }

const MeasureRule* findMeasure(const Check& check, std::string_view key) {
    return find(check.measures, key);
}

}  // namespace rules
