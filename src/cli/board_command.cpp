// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// board: every unit at one time.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "station/standing_source.h"

namespace cli {

namespace {

constexpr Option coldOption{
    "--cold", "", "Read all entries, whatever states of the units are kept; no answer changes."};

station::Result<station::Standing> standingFor(const Call& call,
                                               const station::Surroundings& surroundings) {
    if (!call.has(coldOption.name)) {
        return standingOf(call, surroundings);
    }
    const auto asked = askedOf(call, surroundings);
    if (!asked) {
        return tl::unexpected(asked.error());
    }
    return station::coldStanding(surroundings, logbookOf(call), *asked);
}

class BoardCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "board",
            "Show which units are ready for which patient group, and what the others lack.",
            {shared::logbook},
            {shared::at, shared::knownAt, shared::group, coldOption, shared::json,
             shared::trustLocks},
            "Without --at it is asked for now, by the clock of this computer.",
            "airmuster-cli board ward.logbook --group adult"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto standing = standingFor(call, surroundings);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const auto board = station::board(surroundings, *standing);
        return Answer{ExitStatus::Done,
                      call.has("--json") ? jsonText(toJson(board))
                                         : toText(board, surroundings.words),
                      laterRemarks(*standing, surroundings.words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeBoardCommand() {
    return std::make_unique<BoardCommand>();
}

}  // namespace cli
