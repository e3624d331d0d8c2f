// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What can go wrong with a logbook file, as data: a code and named details. Makes no sentences;
// whoever talks to a person does that.
#pragma once

#include "logbook/instant.h"
#include "logbook/record.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace store {

// Who writes in a logbook at the moment, as its holder file says. Advisory.
struct Holder {
    std::string person;
    std::string computer;
    std::int64_t process = 0;
    logbook::Instant since{};
    bool operator==(const Holder&) const = default;
};

// In every case but LeftAside, NotConfirmed and WriteNotConfirmed it is certain that nothing of
// what was asked for stands there; in those nothing that was confirmed before is lost by it, and
// what was asked for is not confirmed.
struct Trouble {
    enum class Code {
        NotFound,           // no file at `path`, or no folder to make it in
        Exists,             // `path` is there already and is not written over
        NotALogbook,        // `path` is something else
        OtherSchema,        // of a newer version: `schemaFound` > `schemaKnown`; or an older one: <
        ReadOnly,           // the file, folder or this opening does not allow writing
        NotPermitted,       // the operating system does not let this user read `path`
        Busy,               // others write for longer than the busy timeout: `holder`, if known
        DiskFull,
        Damaged,            // the file is no whole database: `text`. With `isUnread`, the disk does
                            // not give a part of it, asked twice, while it gives others
        NeedsRecovery,      // to undo a write needs a writable folder; `isUnread`: and its journal
        NetworkFileSystem,  // `text` is its type; locks cannot be trusted there
        NoStation,          // the logbook has no station of its own
        StationSet,         // another one is set: `station`
        StationTaken,       // records of `station` are here already, written elsewhere
        BadStation,         // `station` is no name for a station
        Fork,               // `records` are here, or twice in the batch, with another content
        Gap,                // `records` wanted before those given, the first of each gap
        ChainBroken,        // `records` kept here do not fit their chain; verify says more
        FirstChanged,       // would change which `adopt` or `person` record is the first:
                            // `records` are the first now and the one that would be
        NotOwn,             // `records` are not the next ones of the own station
        Moved,              // another file stands at `path` than the one that was opened, or none
        LogMoved,           // records have come in since the log was read on which this rests
        NoRecord,           // `records` are not here
        Cancelled,          // the caller's progress function said stop
        LeftAside,          // of a restore: nothing stands at `path` now, what stood there is at
                            // `aside` and could not be moved back: `text`
        NotConfirmed,       // what was made stands at `path` and is whole; that it stays so is not
                            // certain: `text`. Of a restore, under the name `station`: what stood
                            // there is at `aside`, if anything did
        WriteNotConfirmed,  // what was to be written into the file may stand there, or does; that
                            // it stays there is not certain: `text`
        Io,                 // reading or writing failed: `text`. `isUnread`: nothing is given
    };
    Code code{};
    std::filesystem::path path{};
    std::filesystem::path aside{};
    std::string text{};     // technical detail in English, may be empty
    std::string station{};
    std::optional<Holder> holder{};
    std::vector<logbook::RecordName> records{};  // at most 100
    bool isUnread = false;
    int schemaFound = 0;
    int schemaKnown = 0;
};

// The word of a code, "busy", by which a sentence for it can be looked up.
[[nodiscard]] std::string_view name(Trouble::Code code);

}  // namespace store
