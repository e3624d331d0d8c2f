// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// confirm: what was taken under one's name is one's own.
#include "cli/commands.h"
#include "cli/signing.h"
#include "station/confirmation.h"

#include <algorithm>

namespace cli {

namespace {

using station::Result;

class ConfirmCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "confirm",
            "List or confirm the entries that were taken under a name without its PIN.",
            {shared::logbook,
             {"RECORD", "An entry to confirm, as in icu-1/60; none: they are listed.", true, true}},
            {shared::as,
             {"--all", "", "Confirm all that are listed."},
             shared::pinFd, shared::trustLocks},
            "What must not wait for a PIN is taken under the name given. The person whose name it "
            "is confirms it here, with their PIN: a review of the entry is written. To list them "
            "asks for no PIN.",
            "airmuster-cli confirm ward.logbook --all --as m.toller"};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto names = call.values("RECORD");
        if (names.empty() && !call.has("--all")) {
            return list(call, surroundings);
        }
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        station::Confirmation confirmation{signing->writer(call), {}};
        for (const auto& name : names) {
            const auto record = logbook::parseRecordName(name);
            if (!record) {
                return tl::unexpected(station::problemOf(
                    surroundings.words, "call.bad_value",
                    {{"option", "RECORD"}, {"text", name}, {"wanted", "icu-1/60"}}));
            }
            confirmation.records.push_back(*record);
        }
        const auto confirmed = station::confirm(surroundings, logbookOf(call), confirmation);
        if (!confirmed) {
            return tl::unexpected(confirmed.error());
        }
        return Answer{ExitStatus::Done,
                      surroundings.words.say(
                          "done.confirmed", {{"count", std::to_string(confirmed->size())}}) +
                          "\n" + linesOf(*confirmed)};
    }

private:
    static std::string linesOf(const std::vector<station::Unconfirmed>& entries) {
        std::string lines;
        for (const auto& entry : entries) {
            lines += "  " + entry.line + "\n";
        }
        return lines;
    }

    static Result<Answer> list(const Call& call, const station::Surroundings& surroundings) {
        const auto& words = surroundings.words;
        const auto& who = call.wanted(shared::as.name);
        const auto entries = station::unconfirmed(surroundings, logbookOf(call), who);
        if (!entries) {
            return tl::unexpected(entries.error());
        }
        if (entries->empty()) {
            return Answer{ExitStatus::Done,
                          words.say("done.nothing_unconfirmed", {{"person", who}}) + "\n"};
        }
        Answer answer{ExitStatus::Done,
                      words.say("done.unconfirmed", {{"person", entries->front().name},
                                                     {"count", std::to_string(entries->size())}}) +
                          "\n" + linesOf(*entries)};
        if (!std::ranges::all_of(*entries, &station::Unconfirmed::canBeConfirmed)) {
            answer.out += words.say("done.unconfirmed_department") + "\n";
        }
        if (std::ranges::any_of(*entries, &station::Unconfirmed::canBeConfirmed)) {
            answer.out += words.say("done.how_to_confirm",
                                    {{"logbook", call.wanted(shared::logbook.name)},
                                     {"key", who}}) +
                          "\n";
        }
        return answer;
    }
};

}  // namespace

std::unique_ptr<const Command> makeConfirmCommand() {
    return std::make_unique<ConfirmCommand>();
}

}  // namespace cli
