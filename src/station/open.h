// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Opening a logbook, founding one, and reading the whole log out of it.
#pragma once

#include "rules/log.h"
#include "station/problem.h"
#include "station/surroundings.h"
#include "store/logbook.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace station {

using Access = store::OpenOptions::Access;

// Refuses to begin one where what a restore has put aside waits for its name.
[[nodiscard]] Result<store::Logbook> openLogbook(const Surroundings& surroundings,
                                                 const LogbookFile& file, Access access);

// Another file, or none, stands at the path than the one that was opened.
[[nodiscard]] Problem otherFile(const Surroundings& surroundings, const LogbookFile& file);

// Gives the logbook its own station; makes the file if there is none. The same name again changes
// nothing. Whether the file was made.
[[nodiscard]] Result<bool> foundStation(const Surroundings& surroundings, const LogbookFile& file,
                                        const std::string& name);

// Takes back a logbook that was made a moment ago, unless somebody has written into it since.
void removeIfEmpty(const LogbookFile& file);

inline constexpr logbook::Duration defaultStaleAfter{12LL * 3'600'000};

// What the logbook itself knows of its log.
struct LogbookFacts {
    store::StationHeads heads;
    std::optional<store::Verification> verification;
    std::optional<std::string> ownStation;
    logbook::Duration staleAfter = defaultStaleAfter;  // the setting of that name
    std::vector<logbook::RecordName> unread{};  // stored records that were left out: not readable
    std::int64_t arrival = 0;      // of the last record of the log that they are of
    std::int64_t formsIssued = 0;  // downtime forms of this station, numbered from 1
    std::vector<store::Break> gone{};  // what is not here though the logbook has a note of it
    bool isDamaged = false;        // what is whole was read round what cannot be
    bool isRefused = false;        // of that, because the disk does not give it
};

// The log with that.
struct WholeLog : LogbookFacts {
    rules::Log log;
    logbook::Instant reached{};  // what the own clock has shown for certain; see clock_doubt.h
};

// To be called before the records are read, up to `arrival`: what comes in from then on is not of
// that log. `unread` is left empty.
[[nodiscard]] Result<LogbookFacts> readFacts(const Surroundings& surroundings,
                                             const store::Logbook& logbook);

// That a stored record cannot be read.
[[nodiscard]] Problem unreadable(const Surroundings& surroundings,
                                 const logbook::RecordName& record);

// For a logbook that is to be written: a stored record that cannot be read is a problem that names
// it, since what it says may bear on what is written.
[[nodiscard]] Result<WholeLog> readWholeLog(const Surroundings& surroundings,
                                            const store::Logbook& logbook);

// For a file that is only read: what is whole is read, and what is not is named in `unread`.
[[nodiscard]] Result<WholeLog> readWholeLog(const Surroundings& surroundings,
                                            const LogbookFile& file);

// What the logbook itself shows to be gone or changed: what verify noted, and what has gone since.
[[nodiscard]] std::vector<std::string> breaksKnown(const words::Words& words,
                                                   const LogbookFacts& facts);

// Why there is no edition, or nobody, where `problem` says that there is none: what is gone, or
// cannot be read, is not told as what never was. `problem` itself where nothing is known to be so.
[[nodiscard]] Problem lackOfEdition(const Surroundings& surroundings, const LogbookFacts& facts,
                                    Problem problem);

// Nothing can be judged before an edition is in force, as far as is known then, nor where the last
// one adopted by then cannot be used.
[[nodiscard]] Result<void> requireEdition(const Surroundings& surroundings,
                                          const rules::Groundwork& groundwork,
                                          logbook::Instant at, logbook::Instant knownAt);

}  // namespace station
