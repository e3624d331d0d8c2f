// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// try: what a draft of a policy edition would change. Writes nothing.
#include "cli/answer_options.h"
#include "cli/commands.h"

namespace cli {

namespace {

constexpr WholeNumber monthsBack{"--months", 120, "call.whole_months", 12};

class TryCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "try",
            "Show what a draft of a policy edition would change: units, compliance, time below "
            "par, checks.",
            {shared::logbook, {"FILE", "The draft, a TOML file."}},
            {{"--months", "NUMBER", "How many months to replay, 1 to 120; 12 unless given."},
             shared::at,
             shared::knownAt,
             shared::json,
             shared::trustLocks},
            "The past months are replayed under the draft and under the edition in force, and the "
            "units judged as on the day of its adoption. Nothing is adopted or written. A draft "
            "with faults is refused, and all of them are listed.",
            "airmuster-cli try ward.logbook policy-2.toml --months 6"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto months = wholeNumberOf(call, monthsBack, surroundings.words);
        if (!months) {
            return tl::unexpected(months.error());
        }
        const auto standing = wholeStandingOf(call, surroundings);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const auto draft =
            station::tryDraft(surroundings, *standing, {call.wanted("FILE"), *months});
        if (!draft) {
            return tl::unexpected(draft.error());
        }
        return Answer{
            ExitStatus::Done,
            call.has("--json") ? jsonText(toJson(*draft)) : toText(*draft, surroundings.words),
            laterRemarks(*standing, surroundings.words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeTryCommand() {
    return std::make_unique<TryCommand>();
}

}  // namespace cli
