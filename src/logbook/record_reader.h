// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// JSON to records: brings what was written to its one form and refuses what is no record.
// A record is judged by itself here; what a rulebook says of it is never a reason to refuse it.
#pragma once

#include "logbook/json.h"
#include "logbook/record.h"

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace logbook {

// Why a record is refused. `field` is the path of the member ("body.part.reuse", "" for the whole
// line); `detail` what was found there, as text, or what goes with the code.
struct RecordFault {
    enum class Code {
        // Of the JSON; `offset` is the byte.
        NotJson,          // detail: what is wrong, for a person
        DuplicateName,    // detail: the name
        BadText,          // lone surrogate, U+0000 or bytes that are no UTF-8
        BadNumber,        // a number that does not survive as a double
        TooDeep,
        TooLong,          // a line, or its content, over 1 MiB

        // Of the record.
        NotAnObject,
        Missing,          // the field is required
        WrongType,        // detail: "text", "number", "true or false", "list" or "object" is wanted
        BadStation, BadSeq, BadInstant, BadDay, BadKey, BadName, BadRecordName, BadUnit,
        BadWord,          // detail: the words allowed, "pass, fail, incomplete"
        UnknownKind,      // detail: the word; a newer version is needed
        EnteredBeforeAt,  // about the future
        NotTimely,        // a kind that cannot be backdated, with `at` other than `entered`
        DeviceWanted,     // "" where a serial belongs
        DeviceUnwanted,   // a serial where "" belongs
        NoParts,          // reprocess: no `positions` with a device, no `parts` without
    };
    Code code{};
    std::string field;
    std::string detail;
    std::size_t offset = 0;
    bool operator==(const RecordFault&) const = default;
};

using RecordFaults = std::vector<RecordFault>;  // never empty where it is an error

// The content of a record: fields of objects that are null fall away at every level; `at`,
// `entered`, `body.until` and `body.known_at` lose zero milliseconds.
[[nodiscard]] json::Value contentOf(json::Value record);

// All faults of the line, not only the first.
[[nodiscard]] tl::expected<Record, RecordFaults> readRecord(std::string_view line);

// The same for a value put together in memory: refused too if its line could not be read again.
[[nodiscard]] tl::expected<Record, RecordFaults> readRecord(const json::Value& value);

// A text is a line, never a JSON value that is a text.
[[nodiscard]] inline tl::expected<Record, RecordFaults> readRecord(const std::string& line) {
    return readRecord(std::string_view(line));
}
[[nodiscard]] inline tl::expected<Record, RecordFaults> readRecord(const char* line) {
    return readRecord(std::string_view(line));
}

}  // namespace logbook
