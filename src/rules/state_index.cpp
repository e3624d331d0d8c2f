// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is not found by its hash is looked for in the state and found by its hash from then on.
#include "rules/state_index.h"

#include <string>

namespace rules {
namespace {

std::size_t hashOf(std::string_view text) {
    return std::hash<std::string_view>{}(text);
}

auto is(const PartKeyView& key) {
    return [key](const auto& entry) {
        return entry.first.second == key.second && entry.first.first == key.first;
    };
}

}  // namespace

std::size_t hashOf(const PartKeyView& key) {
    return hashOf(key.second) + 31 * hashOf(key.first);
}

Shared<Device>* findDevice(State& state, StateIndex* index, std::string_view serial) {
    if (index) return index->device(state, serial);
    const auto found = state.devices.find(serial);
    return found == state.devices.end() ? nullptr : &found->second;
}

Shared<Device>* StateIndex::device(State& state, std::string_view serial) {
    const std::size_t hash = hashOf(serial);
    auto* known = m_devices.find(
        hash, [serial](const auto& entry) { return entry.first == serial; });
    if (!known) {
        const auto found = state.devices.find(serial);
        if (found == state.devices.end()) return nullptr;
        known = &*found;
        m_devices.add(hash, *known);
    }
    return &known->second;
}

Shared<KnownPart>* StateIndex::part(State& state, const PartKeyView& key) {
    const std::size_t hash = hashOf(key);
    auto* known = m_parts.find(hash, is(key));
    if (!known) {
        const auto found = state.parts.find(key);
        if (found == state.parts.end()) return nullptr;
        known = &*found;
        m_parts.add(hash, *known);
    }
    return &known->second;
}

Shared<KnownPart>& StateIndex::knownPart(State& state, const PartKeyView& key) {
    const std::size_t hash = hashOf(key);
    auto* known = m_parts.find(hash, is(key));
    if (!known) {
        known = &*state.parts.try_emplace({std::string(key.first), std::string(key.second)}).first;
        m_parts.add(hash, *known);
    }
    return known->second;
}

}  // namespace rules
