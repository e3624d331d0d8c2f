// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// plan: the way to ready of one unit.
#include "cli/answer_options.h"
#include "cli/commands.h"

namespace cli {

namespace {

class PlanCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "plan",
            "Show the shortest way to ready for one unit, step by step, or what stands in its way.",
            {shared::logbook, shared::device},
            {shared::at, shared::knownAt, shared::group, shared::json, shared::trustLocks},
            "A forecast for one person: ask again after each step. Without --at it is asked for "
            "now, by the clock of this computer. Ends with status 1 if there is no way to ready.",
            "airmuster-cli plan ward.logbook KB-0142 --group pediatric"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto standing = standingOf(call, surroundings);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const auto way =
            station::wayToReady(surroundings, *standing, call.wanted(shared::device.name));
        if (!way) {
            return tl::unexpected(way.error());
        }
        return Answer{way->plan.readyAt ? ExitStatus::Done : ExitStatus::AnswerIsNo,
                      call.has("--json") ? jsonText(toJson(*way))
                                         : toText(*way, surroundings.words),
                      laterRemarks(*standing, surroundings.words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makePlanCommand() {
    return std::make_unique<PlanCommand>();
}

}  // namespace cli
