// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The list of all commands; see commands.h.
#include "cli/commands.h"

#include <algorithm>

namespace cli {

namespace {

Commands makeAll() {
    Commands commands;
    for (const auto make : {
             makeInitCommand,
             makeRulebookCheckCommand,
             makeAdoptCommand,
             makePersonCommand,
             makePinSetCommand,
             makePinCodeCommand,
             makePinRecoverCommand,
             makeBadgeCommand,
             makePeopleCommand,
             makeSettingsCommand,
             makeFleetCommand,
             makeLogCommand,
             makeConfirmCommand,
             makeStrikeCommand,
             makeTransferCommand,
             makeBoardCommand,
             makeExplainCommand,
             makePlanCommand,
             makeHorizonCommand,
             makeMusterCommand,
             makeTraceCommand,
             makeMonthCommand,
             makeTryCommand,
             makeImportCommand,
             makeImportsCommand,
             makeExportCommand,
             makeBackupCommand,
             makeRestoreCommand,
             makeSalvageCommand,
             makeMigrateCommand,
             makeFormsCommand,
             makeVerifyCommand,
             makeRebuildCommand,
             makeDemoCommand,
             makeHelpCommand,
         }) {
        commands.push_back(make());
    }
    return commands;
}

}  // namespace

const Commands& allCommands() {
    static const Commands commands = makeAll();
    return commands;
}

const Command* findCommand(std::string_view name) {
    const auto& commands = allCommands();
    const auto found = std::ranges::find_if(commands, [name](const auto& command) {
        return command->description().name == name;
    });
    return found == commands.end() ? nullptr : found->get();
}

}  // namespace cli
