// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a command is called with, as data: the parser, the help texts and the manual page are all
// made from it, so that none can say something else than the others.
#pragma once

#include <string_view>
#include <vector>

namespace cli {

struct Argument {
    std::string_view name;      // "LOGBOOK"
    std::string_view sentence;  // what it is
    bool optional = false;      // only after those that are not
    bool repeats = false;       // one or more; only the last
};

struct Option {
    std::string_view name;      // "--at"
    std::string_view value;     // "TIME"; empty for a switch
    std::string_view sentence;
    bool required = false;
    bool repeats = false;       // may be given more than once
};

// Whether a word of that name names a file: that may be written in any bytes, all other words are
// UTF-8.
[[nodiscard]] constexpr bool isPath(std::string_view nameOrValue) {
    return nameOrValue == "LOGBOOK" || nameOrValue == "FILE" || nameOrValue == "TO" ||
           nameOrValue == "BACKUP" || nameOrValue == "NEW";
}

struct Description {
    std::string_view name;      // "board", "rulebook check"
    std::string_view sentence;  // what it does
    std::vector<Argument> arguments;
    std::vector<Option> options;
    std::string_view details;   // a paragraph on what is not plain from the rest; may be empty
    std::string_view example;   // one call as it is typed
    bool writesEntries = false;  // into LOGBOOK, which then may be due for a backup
};

// Options that more than one command has; each means the same everywhere.
namespace shared {
inline constexpr Argument logbook{"LOGBOOK", "The logbook file."};
inline constexpr Argument device{"DEVICE", "The serial of the unit."};
inline constexpr Option as{"--as", "PERSON",
                           "The person who writes this, by the key in the log or the badge.", true};
inline constexpr Option pinFd{
    "--pin-fd", "N",
    "Read the PIN, a line, from that open file descriptor instead of asking for it."};
inline constexpr Option at{"--at", "TIME",
                           "Ask for that time: 14:20 today, 2026-03-02 14:20, or in UTC as in "
                           "2026-03-02T14:20:00Z."};
inline constexpr Option knownAt{
    "--known-at", "TIME", "Use only entries written down by then: what was known at that time."};
inline constexpr Option group{"--group", "GROUP",
                              "Ask for that patient group instead of the one selected."};
inline constexpr Option json{"--json", "", "Print the answer as JSON."};
inline constexpr Option withBatch{
    "--with-batch", "", "Not the entry alone, but all of its batch that still stand."};
inline constexpr Option namesNoPatient{
    "--names-no-patient", "", "The text was looked at and names no patient, though it seems to."};
inline constexpr Option asMeasured{
    "--as-measured", "", "The value was measured so, though nothing measured can be that."};
inline constexpr Option trustLocks{
    "--trust-locks", "",
    "Open the logbook on a shared file system too, whose locks are known to hold."};
inline constexpr Option help{"--help", "", "Print how the command is called, and do nothing."};
}  // namespace shared

}  // namespace cli
