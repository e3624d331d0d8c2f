// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A table of small values that are found by a hash: one stretch of memory, and as good as no
// comparison. What the values are found by, it does not know.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

namespace rules {

template <class Value>
class HashTable {
public:
    // The value of that hash for which `isIt` holds, until the next one is added; null if there is
    // none.
    template <class IsIt>
    [[nodiscard]] Value* find(std::size_t hash, IsIt isIt) {
        if (m_count == 0) return nullptr;
        const std::size_t wanted = hash | taken;
        for (std::size_t place = hash & mask(); m_slots[place].hash; place = next(place)) {
            Slot& slot = m_slots[place];
            if (slot.hash == wanted && isIt(slot.value)) return &slot.value;
        }
        return nullptr;
    }

    // One that is not there yet.
    void add(std::size_t hash, Value value) {
        if (2 * (m_count + 1) > m_slots.size()) grow();
        put({hash | taken, value});
        ++m_count;
    }

    // Keeps its memory.
    void clear() {
        if (m_count > 0) m_slots.assign(m_slots.size(), {});
        m_count = 0;
    }

private:
    // The highest bit says that a slot is taken; the place goes by the lower ones.
    static constexpr std::size_t taken = ~(std::numeric_limits<std::size_t>::max() >> 1);
    static constexpr std::size_t fewest = 64;

    struct Slot {
        std::size_t hash = 0;
        Value value{};
    };

    [[nodiscard]] std::size_t mask() const { return m_slots.size() - 1; }
    [[nodiscard]] std::size_t next(std::size_t place) const { return (place + 1) & mask(); }

    void put(const Slot& slot) {
        std::size_t place = slot.hash & mask();
        while (m_slots[place].hash) place = next(place);
        m_slots[place] = slot;
    }

    void grow() {
        std::vector<Slot> before(m_slots.empty() ? fewest : 2 * m_slots.size());
        before.swap(m_slots);
        for (const Slot& slot : before) {
            if (slot.hash) put(slot);
        }
    }

    std::vector<Slot> m_slots;  // a power of two of them, at most half of them taken
    std::size_t m_count = 0;
};

}  // namespace rules
