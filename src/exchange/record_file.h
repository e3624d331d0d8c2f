// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Record files: JSON Lines, one record a line, as stations hand them to each other. Bytes to
// records and back; knows no file, no logbook and no rulebook.
#pragma once

#include "logbook/record_reader.h"

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace exchange {

// At most so many lines with faults are listed; the rest are counted.
inline constexpr std::size_t faultyLinesListed = 100;

// A line that is no record, and everything that is wrong with it.
struct FaultyLine {
    std::size_t line = 0;  // from 1
    logbook::RecordFaults faults;
};

struct RecordFileFault {
    enum class Code {
        ByteOrderMark,  // the bytes begin with one: nothing else was looked at
        Lines,          // lines are no records
    };
    Code code{};
    std::vector<FaultyLine> lines;  // the first faultyLinesListed
    std::size_t more = 0;           // faulty lines besides these
};

struct RecordLine {
    std::size_t line = 0;  // from 1
    logbook::Record record;
};

// The record on a line, which holds, or may be moved from, until it returns; and the text of the
// line, a part of the bytes that are read.
using RecordTaker =
    std::function<void(std::size_t line, std::string_view text, logbook::Record& record)>;

// Lines end with LF or CRLF, the last one with or without. A line with nothing but blanks and tabs
// is passed over, and counted. All faulty lines are found, not only the first.
[[nodiscard]] tl::expected<std::vector<RecordLine>, RecordFileFault> readRecordFile(
    std::string_view bytes);

// The same, one record after the other. What was taken before a line with faults is to be thrown
// away.
[[nodiscard]] tl::expected<void, RecordFileFault> readRecordFile(std::string_view bytes,
                                                                 const RecordTaker& take);

// The contents of the records as they are given, one a line, each line ended with LF.
[[nodiscard]] std::string writeRecordFile(std::span<const logbook::Record> records);

}  // namespace exchange
