// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// strike: lines through an earlier entry.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "cli/signing.h"
#include "station/entry.h"

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
             {"--reason", "TEXT", "Why it is struck through.", true},
             shared::trustLocks},
            "Nothing is ever deleted. Enter what is right as a new entry. Policy editions, persons "
            "and strikes cannot be struck through: enter a newer one.",
            "airmuster-cli strike ward.logbook icu-1/60 --reason \"Wrong unit scanned\" --as mt"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& text = call.wanted("RECORD");
        const auto target = logbook::parseRecordName(text);
        if (!target) {
            return tl::unexpected(station::problemOf(
                surroundings.words, "call.bad_value",
                {{"option", "RECORD"}, {"text", text}, {"wanted", "icu-1/60"}}));
        }
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        const auto written = station::strike(surroundings, logbookOf(call), signing->writer(call),
                                             *target, call.wanted("--reason"));
        if (!written) {
            return tl::unexpected(written.error());
        }
        return answerOf(call, *written, surroundings.words);
    }
};

}  // namespace

std::unique_ptr<const Command> makeStrikeCommand() {
    return std::make_unique<StrikeCommand>();
}

}  // namespace cli
