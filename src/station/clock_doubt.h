// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether the clock of this computer can be believed. What it says is written down as it stands,
// never clamped; but it is shown, and asked about, before that.
#pragma once

#include "station/open.h"

#include <map>
#include <optional>
#include <string>

namespace station {

// A clock that goes ahead of the time since the start of the computer by more than this was set.
inline constexpr logbook::Duration clockLeap{5LL * 60'000};

struct ClockDoubt {
    enum class Code {
        SetBack,  // earlier than the last entry of this station
        SetAhead, // by more than clockLeap since the last entry written here after the same start
    };
    Code code{};
    logbook::Instant now{};
    logbook::Instant expected{};  // not before this; about this
};

// Nothing: there is no reason to doubt. A clock that was set back is the graver of the two.
[[nodiscard]] Result<std::optional<ClockDoubt>> doubtClock(const Surroundings& surroundings,
                                                           const store::Logbook& logbook,
                                                           const WholeLog& log);

// Notes by how much the clock is ahead of the start of the computer, once an entry is written by
// it. Writes nothing where that is noted already, to the second.
[[nodiscard]] Result<void> noteClock(const Surroundings& surroundings, store::Logbook& logbook);

// Notes instead that entries up to `seq` were written by a clock that seemed to be ahead, and that
// nobody stood by it. `log` is the log before them.
[[nodiscard]] Result<void> noteClockAhead(const Surroundings& surroundings,
                                          store::Logbook& logbook, const WholeLog& log,
                                          std::int64_t seq);

// The latest time of this station's entries for which somebody had signed in, by a clock that did
// not seem to be ahead, and that are not struck through: the time cannot be earlier. Others are not
// held against the clock, since one entry by a wrong clock would shut people out for years.
[[nodiscard]] logbook::Instant reachedBy(const WholeLog& log,
                                         const std::map<std::string, std::string>& settings);

// The same where not all records of the log are at hand: the strikes must be, the others are asked
// of the file. Nothing where one cannot be read, or is gone, that may be the latest.
[[nodiscard]] Result<std::optional<logbook::Instant>> reachedIn(const Surroundings& surroundings,
                                                 const store::Logbook& logbook,
                                                 const WholeLog& log);

// What is told of the doubt, "The clock of this computer says …", in local time where there is a
// zone.
[[nodiscard]] std::string doubtSentence(const words::Words& words, const ClockDoubt& doubt,
                                        const rules::Zone* zone);

}  // namespace station
