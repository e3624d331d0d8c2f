// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// strike: lines through an earlier entry.
#include "cli/commands.h"
#include "cli/corrections.h"

namespace cli {

namespace {

class StrikeCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "strike",
            "Line through an earlier entry that was wrong; it stays readable.",
            {shared::logbook, {"RECORD", "The entry, as in icu-1/60."}},
            {shared::as, shared::pinFd,
             {"--reason", "TEXT", "Why it is struck through.", true}, shared::withBatch,
             shared::namesNoPatient, shared::trustLocks},
            "Nothing is ever deleted. Enter what is right as a new entry. Policy editions, persons "
            "and strikes cannot be struck through: enter a newer one.",
            "airmuster-cli strike ward.logbook icu-1/60 --reason \"Wrong unit scanned\" --as mt",
            true};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto correction = correctionOf(call, surroundings);
        if (!correction) {
            return tl::unexpected(correction.error());
        }
        const auto corrected =
            station::strikeTogether(surroundings, logbookOf(call), *correction);
        if (!corrected) {
            return tl::unexpected(corrected.error());
        }
        return answerOf(*corrected, surroundings.words);
    }
};

}  // namespace

std::unique_ptr<const Command> makeStrikeCommand() {
    return std::make_unique<StrikeCommand>();
}

}  // namespace cli
