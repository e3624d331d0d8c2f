// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What commands share that ask the log or write to it: reading the time, the knowledge and the
// group asked for, remarks on the clock, and what is said of an entry that was kept.
#pragma once

#include "cli/command.h"
#include "logbook/json.h"
#include "station/answers.h"
#include "station/entry.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cli {

[[nodiscard]] station::Result<station::Asked> askedOf(const Call& call,
                                                     const station::Surroundings& surroundings);

// A whole number in an option, of figures alone.
struct WholeNumber {
    std::string_view option;    // "--hours"
    int most = 0;               // 1 is the least
    std::string_view sentence;  // its key: how it is to be written, with the gap `most`
    std::optional<int> usual{};  // unless it is given; none: the option must be given
};
[[nodiscard]] station::Result<int> wholeNumberOf(const Call& call, const WholeNumber& number,
                                                 const words::Words& words);

// The state, and the log with it, for the time and knowledge that the call asks for.
[[nodiscard]] station::Result<station::Standing> standingOf(
    const Call& call, const station::Surroundings& surroundings);

[[nodiscard]] station::Result<station::WholeStanding> wholeStandingOf(
    const Call& call, const station::Surroundings& surroundings);

// An entry that was kept: its name, under whose name it stands if nobody signed in for it, what it
// means, and the warnings about it.
[[nodiscard]] Answer answerOf(const Call& call, const station::Written& written,
                              const words::Words& words);

// What of the log cannot be relied on, and that what is looked for may be among it; nothing where
// all is well.
[[nodiscard]] std::vector<std::string> doubtRemarks(std::vector<std::string> doubts,
                                                    const words::Words& words);

// "icu-1/9 and icu-2/3".
[[nodiscard]] std::string namesOf(const words::Words& words,
                                  const std::vector<logbook::RecordName>& records);

// Why a new file of that name could not be written.
[[nodiscard]] station::Problem problemOfNewFile(const words::Words& words,
                                                station::system::FileTrouble trouble,
                                                const std::string& path);

// As it is printed: indented, with a line end.
[[nodiscard]] std::string jsonText(const logbook::json::Value& value);

// Names the records that were written down after the time asked; at most ten of them.
[[nodiscard]] std::vector<std::string> laterRemarks(const station::Standing& standing,
                                                    const words::Words& words);

}  // namespace cli
