// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Salvage: what of a damaged logbook can be proven, in a new one; and what cannot, named. It needs
// no database that can be opened: only the pages on which records stand.
#pragma once

#include "store/heads.h"
#include "store/trouble.h"
#include "store/verify_report.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace store {

// Of one station the records that are not in the new logbook.
struct Unproven {
    struct Numbers {
        std::int64_t first = 0, last = 0;
        bool operator==(const Numbers&) const = default;
    };

    logbook::RecordName first;    // the first of them
    Break::Reason reason{};       // Gap: it is nowhere; WrongHash: it is not as it was written;
                                  // TailLost: it was here once, and nothing after it is here now
    std::int64_t last = 0;        // the highest number known of the station
    std::int64_t readable = 0;    // of those after `first`, how many stand in the file
    std::vector<Numbers> standing{};  // which; each as many in a row as there are
    bool operator==(const Unproven&) const = default;
};

// What lies beside the damaged file under the name of its journal, and could not be read through as
// one. Empty, or begun with zeroes, it is none that is played back, and no trouble.
struct UnreadJournal {
    enum class Why {
        NoPlainFile,   // a link, a folder, a pipe: it was not opened
        NotPermitted,  // the operating system does not let this user read it
        NotGiven,      // by the disk or the system, or not all of it: `text`
        Strange,       // it does not begin as a journal does
        Torn,          // it ends too early, or a page in it is not as it was written
    };
    std::filesystem::path path;
    Why why{};
    std::string text{};  // what the system says, in English
};

struct SalvageResult {
    std::filesystem::path path;       // empty if nothing was made
    std::int64_t records = 0;         // written into the new logbook
    Heads heads;                      // of the new logbook
    std::vector<Unproven> unproven;   // by station; empty if nothing is known to be lacking
    std::int64_t unreadPages = 0;     // of the damaged file, each of 4096 bytes: on them may have
                                      // stood what nothing else tells of
    std::int64_t undone = 0;          // of `records`, how many stand there, but would be gone once
                                      // the journal beside it were played back
    std::int64_t nameless = 0;        // rows in the file that look like records, and bear the name
                                      // of no station
    std::optional<UnreadJournal> journal{};  // pages of which nothing else tells may stand there
    std::vector<std::string> unnoted{};  // stations of `heads` of which the note that is made with
                                         // each record is not found: later ones may be lacking
};

// Of each station the records from its first on whose chain holds. `target` becomes a logbook
// without a station; nothing is ever changed in `damaged` or beside it: where a journal lies there,
// it is read as it stands and as it would be once that were played back. `at` is noted as the time
// at which the records arrived.
// Where none can be proven nothing is made, and what is lacking is told all the same.
// NotFound (`damaged`, or the folder of `target`, as `path` tells), NotALogbook (`damaged` is no
// file), NotPermitted, Exists, ReadOnly, DiskFull, Io.
[[nodiscard]] tl::expected<SalvageResult, Trouble> salvage(const std::filesystem::path& damaged,
                                                           const std::filesystem::path& target,
                                                           logbook::Instant at);

}  // namespace store
