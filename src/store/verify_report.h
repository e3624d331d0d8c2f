// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What verify found: whether every record here is as it was written, and if not, where not.
#pragma once

#include "logbook/instant.h"
#include "logbook/record.h"
#include "store/heads.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace store {

// The first record of a station that does not fit. What the station wrote from there on is in
// doubt, what it wrote before is not. What something else has put in under the name of no station
// has that name here, or none.
struct Break {
    enum class Reason {
        WrongHash,   // content and the hash before it do not give the hash that stands there
        Column,      // a column is not what the content says; detail: its name
        NotARecord,  // the content is no record in its canonical form
        Gap,         // the record is not there, though later ones are
        NotAsNoted,  // the chain holds, but the record is not the head once noted here: what
                     // stands up to it was written anew
        TailLost,    // the record is not there, though it once was: the head noted when it was
                     // written says so, or the heads that a former verify noted
        NotNoted,    // it is there without the note that every writer makes with it: something
                     // else has put it in
        Order,       // it arrived before the one before it
        Unreadable,  // the file could not be read there; detail: why
        Hole,        // a record is gone, and of which station cannot be told: `record` has no
                     // station, and its seq is the number of the arrival that is missing
    };
    logbook::RecordName record;
    Reason reason{};
    std::string detail{};
    bool operator==(const Break&) const = default;
};

// "wrong_hash", "column", … by which a sentence can be looked up.
[[nodiscard]] std::string_view name(Break::Reason reason);
[[nodiscard]] std::optional<Break::Reason> breakReasonOf(std::string_view text);

struct VerifyReport {
    std::int64_t checked = 0;                // records read
    std::vector<Break> breaks;               // at most one a station and one Hole, by station
    std::vector<std::string> schemaChanged;  // tables, indexes, triggers missing, changed or added
    std::vector<std::string> integrity;      // what the database says of its pages, at most 100
    Heads heads;                             // of each station the last record that fits
    bool diskFailed = false;                 // the disk gave an error: what was found may be its
    // Each record was read and fits, and none is known to be lacking, whatever was found of the
    // file around them.
    bool areEntriesWhole = false;

    [[nodiscard]] bool ok() const {
        return breaks.empty() && schemaChanged.empty() && integrity.empty();
    }
};

// What was noted of a verify, so that a board can say when it last ran and up to where.
struct Verification {
    logbook::Instant at{};
    bool ok = false;
    std::int64_t checked = 0;
    Heads heads;
    std::vector<Break> breaks;
};

}  // namespace store
