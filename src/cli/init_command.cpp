// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// init: the logbook's own station.
#include "cli/commands.h"

#include "station/open.h"

namespace cli {

namespace {

class InitCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "init",
            "Make a logbook, or name the station that writes in one.",
            {shared::logbook},
            {{"--station", "NAME",
              "The name of this station: small letters, figures and hyphens, at most 32.", true},
             shared::trustLocks},
            "Records are named after the station that wrote them, for ever. Give each computer a "
            "name of its own; a logbook that was copied or restored from a backup goes on under a "
            "new one. It can be said once, also of a logbook made by an import.",
            "airmuster-cli init ward.logbook --station icu-1"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& name = call.wanted("--station");
        const auto made = station::foundStation(surroundings, logbookOf(call), name);
        if (!made) {
            return tl::unexpected(made.error());
        }
        return Answer{ExitStatus::Done,
                      surroundings.words.say("done.founded", {{"station", name}}) + "\n"};
    }
};

}  // namespace

std::unique_ptr<const Command> makeInitCommand() {
    return std::make_unique<InitCommand>();
}

}  // namespace cli
