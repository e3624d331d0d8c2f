// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records that follow each other in the reading order, put together by unit: what is written about
// one unit bears on no other one, but for a part that goes from one to the other and for what is
// said of the whole department. So they can be folded unit by unit, and what is known of a unit is
// fetched from memory once for several records. Folds nothing.
#pragma once

#include "rules/indexed_state.h"

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace rules {

class UnitBatch {
public:
    // False, and nothing is put in, if the record may bear on another unit than its own, or on what
    // a record that is in the batch bears on: fold those first, and then this one by itself.
    // `indexed` is the state before all of the batch; the record must last as long.
    [[nodiscard]] bool add(IndexedState& indexed, const logbook::Record& record);

    [[nodiscard]] std::size_t units() const { return m_units.size(); }

    // Calls `take` with the records of the unit of that number, in the order in which they came.
    template <class Take>
    void forEach(std::size_t unit, Take take) const {
        for (auto place = m_units[unit].first; place != none; place = m_records[place].next) {
            take(*m_records[place].record);
        }
    }

    // Keeps its memory.
    void clear();

private:
    static constexpr std::size_t none = SIZE_MAX;

    struct Unit {
        std::size_t first = none;  // of its records
        std::size_t last = none;
    };
    struct Entry {
        const logbook::Record* record = nullptr;
        std::size_t next = none;  // of the same unit
    };

    [[nodiscard]] std::size_t unitOf(std::string_view serial);
    // Whether the part that is put in is another unit's, or will be.
    [[nodiscard]] bool isShared(IndexedState& indexed, const logbook::Record& record,
                                std::size_t unit);

    std::vector<Unit> m_units;
    std::vector<Entry> m_records;
    std::unordered_map<std::string_view, std::size_t> m_unitsBySerial;
    std::unordered_map<std::size_t, std::size_t> m_unitsByPart;  // by the hash of a part put in
};

}  // namespace rules
