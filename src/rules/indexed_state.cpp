// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is not found by its hash is looked for in the state and found by its hash from then on.
#include "rules/indexed_state.h"

#include <functional>
#include <string>

namespace rules {
namespace {

bool isSame(std::string_view one, std::string_view other) { return one == other; }

bool isSame(const PartKey& one, const PartKeyView& other) {
    return one.second == other.second && one.first == other.first;
}

}  // namespace

std::size_t hashOf(std::string_view serial) {
    return std::hash<std::string_view>{}(serial);
}

std::size_t hashOf(const PartKeyView& key) {
    return hashOf(key.second) + 31 * hashOf(key.first);
}

// `make` is called where there is none, with the place at which it would be, and gives the entry
// made there; null for none.
template <class Map, class Key, class Make>
typename Map::value_type* IndexedState::entryOf(Map& map, Entries<Map>& known, const Key& key,
                                                Make make) {
    const std::size_t hash = hashOf(key);
    const auto isIt = [&](const auto* entry) { return isSame(entry->first, key); };
    if (auto* const* found = known.find(hash, isIt)) return *found;
    const auto place = map.lower_bound(key);
    const bool isThere = place != map.end() && isSame(place->first, key);
    auto* entry = isThere ? &*place : make(place);
    if (entry) known.add(hash, entry);
    return entry;
}

Shared<Device>* IndexedState::device(std::string_view serial) {
    using Entry = decltype(State::devices)::value_type;
    auto* entry = entryOf(m_state.devices, m_devices, serial,
                          [](const auto&) -> Entry* { return nullptr; });
    return entry ? &entry->second : nullptr;
}

Shared<KnownPart>* IndexedState::part(const PartKeyView& key) {
    using Entry = decltype(State::parts)::value_type;
    auto* entry = entryOf(m_state.parts, m_parts, key,
                          [](const auto&) -> Entry* { return nullptr; });
    return entry ? &entry->second : nullptr;
}

Shared<KnownPart>& IndexedState::knownPart(const PartKeyView& key) {
    return entryOf(m_state.parts, m_parts, key, [&](const auto& place) {
               PartKey isNew{std::string(key.first), std::string(key.second)};
               return &*m_state.parts.emplace_hint(place, std::move(isNew), Shared<KnownPart>());
           })
        ->second;
}

}  // namespace rules
