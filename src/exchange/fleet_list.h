// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fleet lists: the units of a department as comma-separated values, a unit a row. Bytes to
// enrolments, and everything that is wrong with a list by itself; knows no logbook and no rulebook.
#pragma once

#include "logbook/record.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace exchange {

inline constexpr std::size_t longestFleetList = 4U << 20;  // bytes
inline constexpr std::size_t mostFleetRows = 10'000;
inline constexpr std::size_t longestFleetText = 200;  // characters, of a label, maker, udi or owner

// The columns that are known, in the order in which they are documented.
[[nodiscard]] const std::vector<std::string_view>& fleetColumns();

struct FleetFault {
    enum class Code {
        // Of the file: nothing is taken from it.
        TooLong,         // over longestFleetList; nothing else was looked at
        NotUtf8,         // detail: the first line that is not
        NoHeader,        // there is no row
        Semicolons,      // part its columns, where commas have to
        Tabs,            // likewise
        ColumnMissing,   // serial, model, groups or commissioned
        ColumnTwice,
        TooManyRows,     // over mostFleetRows; the rest was not read

        // Of a row; also of the header.
        StrayQuote,
        OpenQuote,  // the rest of the file was not read

        // Of a row.
        CellCount,         // detail: how many it has; the header has another number
        Missing,           // the cell is empty
        BadName,           // detail: what stands there
        BadKey,            // detail: the first that is none
        BadDay,            // detail: what stands there
        ControlCharacter,  // a line end or the like in the cell
        TooLongText,       // over longestFleetText
        NumberTwice,       // detail: another line whose unit has this serial or asset number
    };
    Code code{};
    std::string column{};  // "" the whole row or file
    std::string detail{};
    bool operator==(const FleetFault&) const = default;
};

// The word of a code, "stray_quote", by which a sentence for it can be looked up.
[[nodiscard]] std::string_view name(FleetFault::Code code);

// A unit as a list, or a person, states it.
struct FleetRow {
    std::size_t line = 0;  // on which it begins, from 1
    std::string serial;
    logbook::body::Enrol unit;
};

struct RefusedFleetRow {
    FleetRow row;  // as far as it could be read: a row with another number of cells has its line
    std::vector<FleetFault> faults;
};

struct FleetList {
    std::vector<FleetRow> rows;            // those without a fault, as they stand
    std::vector<RefusedFleetRow> refused;  // all others, likewise
    std::vector<std::string> ignored;      // columns whose names are not known
};

// UTF-8 with or without a byte-order mark. The header's columns stand in any order and in small or
// capital letters. Blanks at the ends of a cell are left off, and rows with nothing in them passed
// over. Two rows that share a number are both refused: which of them is right is not known.
[[nodiscard]] tl::expected<FleetList, std::vector<FleetFault>> readFleetList(
    std::string_view bytes);

// What is wrong with a unit by itself, whoever stated it.
[[nodiscard]] std::vector<FleetFault> faultsOf(const FleetRow& row);

}  // namespace exchange
