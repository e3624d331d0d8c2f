// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records as a logbook file keeps them, and how to ask for them.
#pragma once

#include "logbook/canonical_reader.h"
#include "logbook/instant.h"
#include "logbook/record.h"
#include "store/hash.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace store {

// A place in the reading order: (at, entered, station, seq).
struct Place {
    logbook::Instant at{};
    logbook::Instant entered{};
    logbook::RecordName name{};
    auto operator<=>(const Place&) const = default;
};

[[nodiscard]] Place placeOf(const logbook::Record& record);

// A record to be appended, lent by whoever holds its texts. A file of many is brought in as these,
// which take a small part of the memory of whole records.
struct LentRecord {
    std::string_view station;
    std::int64_t seq = 0;
    logbook::Instant at{};
    logbook::Instant entered{};
    std::string_view device;
    std::string_view content;  // canonical JSON
    logbook::Kind kind{};
};

[[nodiscard]] LentRecord lend(const logbook::Record& record);
[[nodiscard]] logbook::RecordName nameOf(const LentRecord& record);

struct Row {
    Place place;
    std::string device;
    std::string kind;
    std::string content;          // canonical JSON, what logbook::readRecord reads
    Hash hash{};
    logbook::Instant arrived{};   // when it came into this file
    std::int64_t arrival = 0;     // 1, 2, 3 … in the order in which records came into this file
};

// Which rows; all conditions given hold together.
struct Selection {
    std::optional<Place> after{};         // those after that place
    std::optional<std::string> device{};  // of that device; "" the department-wide ones
    std::int64_t arrivedAfter = 0;        // those with a higher `arrival`
    // Those with no higher `arrival`, so that what is read in portions is the log of one moment.
    std::optional<std::int64_t> arrivedUpTo{};
    enum class Kinds { All, Founding, Strikes };
    Kinds kinds = Kinds::All;             // Founding: `adopt` and `person`
    // Of what readRecords gives; whether a content is that of its columns is looked at in any case.
    logbook::WithContent withContent = logbook::WithContent::Yes;
    bool withHash = false;                // whether readRecords gives hashes, too
};

// A record as it is read on and on, into one that is used again.
struct ReadRecord {
    Place place;
    std::int64_t arrival = 0;
    bool whole = false;  // false: the content is no record, or not that of its columns
    logbook::Record record;
    Hash hash{};  // as it is stored, where it was asked for
};

// Records read back. A row whose content is no record, or not that of its columns, stops nothing:
// its name stands in `inDoubt`.
struct Records {
    std::vector<logbook::Record> records;  // in reading order
    std::vector<logbook::RecordName> inDoubt;
    std::int64_t lastArrival = 0;          // highest `arrival` among all rows read, 0 for none
};

}  // namespace store
