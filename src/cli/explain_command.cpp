// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// explain: one unit, and why it is not ready.
#include "cli/answer_options.h"
#include "cli/commands.h"

namespace cli {

namespace {

class ExplainCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "explain",
            "Show one unit: what stands against it, on which entries that rests, and its set-up.",
            {shared::logbook, shared::device},
            {shared::at, shared::knownAt, shared::group, shared::json, shared::trustLocks},
            "Without --at it is asked for now, by the clock of this computer.",
            "airmuster-cli explain ward.logbook KB-0142"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto asked = askedOf(call, surroundings);
        if (!asked) {
            return tl::unexpected(asked.error());
        }
        const auto standing = station::standing(surroundings, logbookOf(call), *asked);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const auto explained =
            station::explain(surroundings, *standing, call.wanted(shared::device.name));
        if (!explained) {
            return tl::unexpected(explained.error());
        }
        return Answer{ExitStatus::Done,
                      call.has("--json") ? jsonText(toJson(*explained))
                                         : toText(*explained, surroundings.words),
                      laterRemarks(*standing, surroundings.words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeExplainCommand() {
    return std::make_unique<ExplainCommand>();
}

}  // namespace cli
