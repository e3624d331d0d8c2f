// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records that follow each other in the reading order, put together by unit: what is written about
// one unit bears on no other one, but for a part that goes from one to the other and for what is
// said of the whole department. So they can be folded unit by unit, and what is known of a unit is
// fetched from memory once for several records. Folds nothing.
#pragma once

#include "rules/hash_table.h"
#include "rules/indexed_state.h"

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace rules {

class UnitBatch {
public:
    enum class Added {
        Yes,
        NotBeforeUnits,  // a part comes from another unit, or another will have had it
        NotBeforeAll,    // it bears on any unit
    };

    // Puts the record in, which must last until it is folded, if it bears on its own unit alone.
    // Else the records of `unitsInTheWay`, or all, are to be folded before it, and then it by
    // itself, as the very next. Precondition: `indexed` is the state before all of the records
    // that are in, and after all others that came before this one.
    [[nodiscard]] Added add(IndexedState& indexed, const logbook::Record& record);

    // Of the record that was just refused with NotBeforeUnits: its own unit, and those in which
    // its part is or will be.
    [[nodiscard]] const std::vector<std::size_t>& unitsInTheWay() const { return m_inTheWay; }

    // How many units there are, numbered from 0; one of which all was folded is still among them.
    [[nodiscard]] std::size_t units() const { return m_units.size(); }

    // Calls `fold` with the records of the unit of that number, in the order in which they came;
    // from then on they are not in any more. How many there were.
    template <class Fold>
    std::size_t foldUnit(std::size_t unit, Fold fold) {
        std::size_t count = 0;
        for (auto place = m_units[unit].first; place != none; place = m_records[place].next) {
            fold(*m_records[place].record);
            ++count;
        }
        m_units[unit].first = m_units[unit].last = none;
        return count;
    }

    // Once all was folded: the next batch. Keeps its memory.
    void clear();

private:
    static constexpr std::size_t none = SIZE_MAX;

    struct Unit {
        std::string_view serial;
        std::size_t first = none;  // of its records
        std::size_t last = none;
    };
    struct Entry {
        const logbook::Record* record = nullptr;
        std::size_t next = none;  // of the same unit
    };

    // Null: nothing is in of it.
    [[nodiscard]] const std::size_t* find(std::string_view serial);
    [[nodiscard]] std::size_t unitOf(std::string_view serial);
    [[nodiscard]] bool takesPartOfOther(IndexedState& indexed, const logbook::Record& record,
                                        std::size_t unit);

    std::vector<Unit> m_units;
    std::vector<Entry> m_records;
    HashTable<std::size_t> m_unitsBySerial;
    // The unit that a part was last put into, by its hash alone: two of one hash are taken for the
    // same, which costs a little time and no more.
    HashTable<std::size_t> m_unitsByPart;
    std::vector<std::size_t> m_inTheWay;
};

}  // namespace rules
