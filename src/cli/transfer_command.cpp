// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// transfer: entries made on the wrong unit.
#include "cli/commands.h"
#include "cli/corrections.h"

namespace cli {

namespace {

class TransferCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "transfer",
            "Move an entry that was made on the wrong unit to the right one.",
            {shared::logbook, {"RECORD", "The entry, as in icu-1/60."}},
            {{"--to", "DEVICE", "The serial of the right unit.", true},
             shared::as, shared::pinFd,
             {"--reason", "TEXT", "Why it is moved.", true}, shared::withBatch,
             shared::namesNoPatient, shared::trustLocks},
            "The entry is struck through and entered anew on the right unit, for the same time, as "
            "done by whoever did it, and names the entry that it takes the place of. All of it is "
            "written, or nothing.",
            "airmuster-cli transfer ward.logbook icu-1/60 --to KB-0143 --reason \"Wrong unit "
            "scanned\" --as mt",
            true};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto correction = correctionOf(call, surroundings);
        if (!correction) {
            return tl::unexpected(correction.error());
        }
        const auto corrected = station::moveToUnit(surroundings, logbookOf(call), *correction,
                                                   call.wanted("--to"));
        if (!corrected) {
            return tl::unexpected(corrected.error());
        }
        return answerOf(*corrected, surroundings.words);
    }
};

}  // namespace

std::unique_ptr<const Command> makeTransferCommand() {
    return std::make_unique<TransferCommand>();
}

}  // namespace cli
