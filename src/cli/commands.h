// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every command of the program, and where each is made.
#pragma once

#include "cli/command.h"

#include <memory>
#include <string_view>
#include <vector>

namespace cli {

using Commands = std::vector<std::unique_ptr<const Command>>;

// In the order in which the help lists them.
[[nodiscard]] const Commands& allCommands();

// Null if there is none of that name.
[[nodiscard]] const Command* findCommand(std::string_view name);

[[nodiscard]] std::unique_ptr<const Command> makeInitCommand();
[[nodiscard]] std::unique_ptr<const Command> makeRulebookCheckCommand();
[[nodiscard]] std::unique_ptr<const Command> makeAdoptCommand();
[[nodiscard]] std::unique_ptr<const Command> makePersonCommand();
[[nodiscard]] std::unique_ptr<const Command> makePinSetCommand();
[[nodiscard]] std::unique_ptr<const Command> makePinCodeCommand();
[[nodiscard]] std::unique_ptr<const Command> makePinRecoverCommand();
[[nodiscard]] std::unique_ptr<const Command> makeBadgeCommand();
[[nodiscard]] std::unique_ptr<const Command> makeLogCommand();
[[nodiscard]] std::unique_ptr<const Command> makeConfirmCommand();
[[nodiscard]] std::unique_ptr<const Command> makeStrikeCommand();
[[nodiscard]] std::unique_ptr<const Command> makeTransferCommand();
[[nodiscard]] std::unique_ptr<const Command> makeFleetCommand();
[[nodiscard]] std::unique_ptr<const Command> makePeopleCommand();
[[nodiscard]] std::unique_ptr<const Command> makeImportsCommand();
[[nodiscard]] std::unique_ptr<const Command> makeSettingsCommand();
[[nodiscard]] std::unique_ptr<const Command> makeImportCommand();
[[nodiscard]] std::unique_ptr<const Command> makeExportCommand();
[[nodiscard]] std::unique_ptr<const Command> makeBackupCommand();
[[nodiscard]] std::unique_ptr<const Command> makeRestoreCommand();
[[nodiscard]] std::unique_ptr<const Command> makeSalvageCommand();
[[nodiscard]] std::unique_ptr<const Command> makeMigrateCommand();
[[nodiscard]] std::unique_ptr<const Command> makeFormsCommand();
[[nodiscard]] std::unique_ptr<const Command> makeBoardCommand();
[[nodiscard]] std::unique_ptr<const Command> makeExplainCommand();
[[nodiscard]] std::unique_ptr<const Command> makePlanCommand();
[[nodiscard]] std::unique_ptr<const Command> makeHorizonCommand();
[[nodiscard]] std::unique_ptr<const Command> makeTraceCommand();
[[nodiscard]] std::unique_ptr<const Command> makeMusterCommand();
[[nodiscard]] std::unique_ptr<const Command> makeTryCommand();
[[nodiscard]] std::unique_ptr<const Command> makeMonthCommand();
[[nodiscard]] std::unique_ptr<const Command> makeVerifyCommand();
[[nodiscard]] std::unique_ptr<const Command> makeRebuildCommand();
[[nodiscard]] std::unique_ptr<const Command> makeDemoCommand();
[[nodiscard]] std::unique_ptr<const Command> makeHelpCommand();

}  // namespace cli
