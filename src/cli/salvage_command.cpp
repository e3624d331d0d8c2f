// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// salvage: what can be proven of a damaged logbook, in a new one.
#include "cli/commands.h"

#include "logbook/json.h"
#include "station/rescue.h"

namespace cli {

namespace {

class SalvageCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "salvage",
            "Get out of a damaged logbook what its chain proves, into a new one.",
            {shared::logbook, {"NEW", "The new logbook; no file of that name may be there."}},
            {},
            "The damaged file, and a journal beside it, are left as they are. Of each station "
            "everything up to its first entry that is lost or changed is taken, and what is "
            "lacking, or may be, is listed, with exit status 1. The new logbook has no station of "
            "its own, and goes on under a new name.",
            "airmuster-cli salvage ward.logbook ward-salvaged.logbook"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& words = surroundings.words;
        const auto salvaged =
            station::salvage(surroundings, logbookOf(call), call.wanted("NEW"));
        if (!salvaged) {
            return tl::unexpected(salvaged.error());
        }
        auto told = station::lackingOf(words, *salvaged);
        const auto* ending = told.empty() ? "rescue.none_known_lacking" : "rescue.to_complete";
        if (auto unnoted = station::unnotedOf(words, *salvaged)) {
            ending = told.empty() ? "rescue.none_else_lacking" : ending;
            told.push_back(*std::move(unnoted));
        }
        std::string text = words.say("rescue.salvaged",
                                     {{"count", std::to_string(salvaged->records)},
                                      {"path", salvaged->path.string()}}) +
                           "\n";
        if (const auto undone = station::undoneOf(words, call.wanted("LOGBOOK"), *salvaged)) {
            text += *undone + "\n";
        }
        for (const auto& line : told) {
            text += "  " + line + "\n";
        }
        text += words.say(ending) + "\n" + logbook::json::canonical(toJson(salvaged->heads)) + "\n";
        Answer answer{told.empty() ? ExitStatus::Done : ExitStatus::AnswerIsNo, text, {}, true};
        answer.longer = station::LogbookFile{call.wanted("NEW")};
        return answer;
    }
};

}  // namespace

std::unique_ptr<const Command> makeSalvageCommand() {
    return std::make_unique<SalvageCommand>();
}

}  // namespace cli
