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

void Rulebook::indexVoidings() {
    for (auto& each : voidings) each.clear();
    for (std::uint32_t check = 0; check < checks.size(); ++check) {
        const auto& entries = checks[check].voidedBy;
        for (std::uint32_t entry = 0; entry < entries.size(); ++entry) {
            const EventKind kind = entries[entry].event.kind;
            voidings[static_cast<std::size_t>(kind)].push_back({check, entry});
            if (kind != EventKind::Change) continue;
            voidings[static_cast<std::size_t>(EventKind::Fit)].push_back({check, entry});
            voidings[static_cast<std::size_t>(EventKind::Remove)].push_back({check, entry});
        }
    }
}

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
