// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Finds the units and parts of a state by their hash while a long log is folded onto it. A look-up
// in the state's own maps goes down a tree, and with many units and parts each step of it is memory
// that no cache holds. Knows what is found so far, and nothing that the state does not have.
#pragma once

#include "rules/state.h"

#include <cstddef>
#include <functional>
#include <string_view>
#include <vector>

namespace rules {

// Entries of a map that loses none, by the hash of their keys. They stay where they are.
template <class Map>
class HashedEntries {
public:
    using Entry = typename Map::value_type;

    // Null if none of that hash is the one.
    template <class IsIt>
    [[nodiscard]] Entry* find(std::size_t hash, IsIt isIt) const {
        if (m_slots.empty()) return nullptr;
        for (std::size_t place = hash & mask(); m_slots[place].entry; place = next(place)) {
            const Slot& slot = m_slots[place];
            if (slot.hash == hash && isIt(*slot.entry)) return slot.entry;
        }
        return nullptr;
    }

    // One that is not there yet.
    void add(std::size_t hash, Entry& entry) {
        if (2 * (m_count + 1) > m_slots.size()) grow();
        put({hash, &entry});
        ++m_count;
    }

private:
    struct Slot {
        std::size_t hash = 0;
        Entry* entry = nullptr;
    };

    [[nodiscard]] std::size_t mask() const { return m_slots.size() - 1; }
    [[nodiscard]] std::size_t next(std::size_t place) const { return (place + 1) & mask(); }

    void put(Slot slot) {
        std::size_t place = slot.hash & mask();
        while (m_slots[place].entry) place = next(place);
        m_slots[place] = slot;
    }

    void grow() {
        std::vector<Slot> before(m_slots.empty() ? 64 : 2 * m_slots.size());
        before.swap(m_slots);
        for (const Slot& slot : before) {
            if (slot.entry) put(slot);
        }
    }

    std::vector<Slot> m_slots;  // a power of two of them, at most half of them taken
    std::size_t m_count = 0;
};

class StateIndex {
public:
    StateIndex() = default;
    // It leads into one state, not into a copy of that.
    StateIndex(const StateIndex&) = delete;
    StateIndex& operator=(const StateIndex&) = delete;
    StateIndex(StateIndex&&) = default;
    StateIndex& operator=(StateIndex&&) = default;
    ~StateIndex() = default;

    // Null if there is none. `state` is the same at each call, and has lost nothing since.
    [[nodiscard]] Shared<Device>* device(State& state, std::string_view serial);
    [[nodiscard]] Shared<KnownPart>* part(State& state, const PartKeyView& key);
    // Made known if it was not.
    [[nodiscard]] Shared<KnownPart>& knownPart(State& state, const PartKeyView& key);

private:
    HashedEntries<decltype(State::devices)> m_devices;
    HashedEntries<decltype(State::parts)> m_parts;
};

// By its index, where there is one; null if there is no such unit.
[[nodiscard]] Shared<Device>* findDevice(State& state, StateIndex* index, std::string_view serial);

[[nodiscard]] std::size_t hashOf(const PartKeyView& key);

}  // namespace rules
