// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// horizon: what stops being ready in the hours to come, and the least work that prevents it.
#include "cli/answer_options.h"
#include "cli/commands.h"

namespace cli {

namespace {

constexpr WholeNumber hoursAhead{"--hours", 744, "call.whole_hours", 12};  // at most 31 days

class HorizonCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "horizon",
            "Look ahead: which units stop being ready when and why, which groups fall below par, "
            "and the least work that prevents it.",
            {shared::logbook},
            {{"--hours", "HOURS", "How far to look: whole hours, 1 to 744; 12 unless given."},
             shared::at, shared::knownAt, shared::json, shared::trustLocks},
            "As if nothing further were recorded. Without --at it is asked for now, by the clock "
            "of this computer.",
            "airmuster-cli horizon ward.logbook --hours 12"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto hours = wholeNumberOf(call, hoursAhead, surroundings.words);
        if (!hours) {
            return tl::unexpected(hours.error());
        }
        const auto standing = standingOf(call, surroundings);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const auto horizon = station::horizon(surroundings, *standing, {*hours * 3'600'000LL});
        return Answer{ExitStatus::Done,
                      call.has("--json") ? jsonText(toJson(horizon))
                                         : toText(horizon, surroundings.words),
                      laterRemarks(*standing, surroundings.words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeHorizonCommand() {
    return std::make_unique<HorizonCommand>();
}

}  // namespace cli
