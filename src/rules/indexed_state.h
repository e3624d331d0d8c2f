// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A state on its way through a long log, whose units and parts are found by their hash. A look-up
// in the state's own maps goes down a tree, and with many units and parts each step of it is memory
// that no cache holds.
#pragma once

#include "rules/fold.h"
#include "rules/hash_table.h"

#include <cstddef>
#include <string_view>
#include <utility>

namespace rules {

// What was found so far is remembered, and never that something is not there. So whoever has the
// state may add to its maps, and change what they hold; out of them nothing may be taken.
class IndexedState {
public:
    explicit IndexedState(State state) : m_state(std::move(state)) {}
    // What is remembered leads into one state, not into a copy of that.
    IndexedState(const IndexedState&) = delete;
    IndexedState& operator=(const IndexedState&) = delete;
    IndexedState(IndexedState&&) = default;
    IndexedState& operator=(IndexedState&&) = default;
    ~IndexedState() = default;

    [[nodiscard]] State& state() { return m_state; }
    [[nodiscard]] const State& state() const { return m_state; }
    [[nodiscard]] State take() && { return std::move(m_state); }

    // Null: it is not known.
    [[nodiscard]] Shared<Device>* device(std::string_view serial);
    [[nodiscard]] Shared<KnownPart>* part(const PartKeyView& key);
    // Made known if it was not.
    [[nodiscard]] Shared<KnownPart>& knownPart(const PartKeyView& key);

private:
    // Entries stay where they are in the map.
    template <class Map>
    using Entries = HashTable<typename Map::value_type*>;

    template <class Map, class Key, class Make>
    static typename Map::value_type* entryOf(Map& map, Entries<Map>& known, const Key& key,
                                             Make make);

    State m_state;
    Entries<decltype(State::devices)> m_devices;
    Entries<decltype(State::parts)> m_parts;
};

[[nodiscard]] std::size_t hashOf(std::string_view serial);
[[nodiscard]] std::size_t hashOf(const PartKeyView& key);

// Which units a record may change: its own alone, or any. Builds with assertions hold it to that.
enum class Reach { OwnUnit, All };

// What the record makes of the state, as `fold` does. What it brings about besides, its events,
// anomalies and whether it took effect, is not worked out: an answer about those asks `fold`.
void foldStateOnly(IndexedState& indexed, const logbook::Record& record, const Editions& editions,
                   Reach reach);

}  // namespace rules
