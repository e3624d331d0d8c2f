// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// help: all commands, or the manual page.
#include "cli/commands.h"

#include "cli/help.h"

namespace cli {

namespace {

class HelpCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "help",
            "List the commands.",
            {},
            {{"--man", "", "Print the manual page instead."}},
            "",
            "airmuster-cli help"};
        return data;
    }

    station::Result<Answer> run(const Call& call, const station::Surroundings&) const override {
        return Answer{ExitStatus::Done, call.has("--man") ? manualPage(allCommands())
                                                          : generalHelp(allCommands())};
    }
};

}  // namespace

std::unique_ptr<const Command> makeHelpCommand() {
    return std::make_unique<HelpCommand>();
}

}  // namespace cli
