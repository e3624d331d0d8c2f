// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A command: its description, and what it does with one call of it.
#pragma once

#include "cli/call.h"
#include "cli/description.h"
#include "station/given_time.h"
#include "station/problem.h"
#include "station/surroundings.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace cli {

enum class ExitStatus {
    Done = 0,
    AnswerIsNo = 1,
    WrongCall = 2,
    NoLogbook = 3,
    NotTold = 4,  // done, but the answer could not be printed
};

// All that a command says: printed once it is whole, so that no part of an answer is ever taken
// for the answer.
struct Answer {
    ExitStatus status = ExitStatus::Done;
    std::string out;                      // ends with a line end unless empty
    std::vector<std::string> remarks{};   // lines for standard error
    bool isKept = false;  // something was written, and stands even if this cannot be printed
    std::optional<station::LogbookFile> entriesIn{};  // the logbook into which entries were written
    // The logbook of which more has to be folded now, so that it may be time to keep states of it.
    std::optional<station::LogbookFile> longer{};
};

class Command {
public:
    Command() = default;
    Command(const Command&) = delete;
    Command& operator=(const Command&) = delete;
    virtual ~Command() = default;

    [[nodiscard]] virtual const Description& description() const = 0;
    [[nodiscard]] virtual station::Result<Answer> run(
        const Call& call, const station::Surroundings& surroundings) const = 0;
};

// The logbook that the call names.
[[nodiscard]] station::LogbookFile logbookOf(const Call& call);

// The instant in that option, in UTC or by the clock on the wall of the department whose logbook
// the call names; nothing if it was not given.
[[nodiscard]] station::Result<std::optional<logbook::Instant>> instantOf(
    const Call& call, std::string_view option, const station::Surroundings& surroundings,
    station::Tense tense = station::Tense::Any);

// Likewise, in UTC alone.
[[nodiscard]] station::Result<std::optional<logbook::Instant>> utcInstantOf(
    const Call& call, std::string_view option, const words::Words& words);

}  // namespace cli
