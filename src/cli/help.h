// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Help texts and the manual page, made from the descriptions of the commands alone.
#pragma once

#include "cli/commands.h"

#include <string>

namespace cli {

// Every command with its sentence.
[[nodiscard]] std::string generalHelp(const Commands& commands);

// How one command is called.
[[nodiscard]] std::string commandHelp(const Description& description);

// The manual page airmuster-cli(1), as roff.
[[nodiscard]] std::string manualPage(const Commands& commands);

// "airmuster-cli 0.1.0".
[[nodiscard]] std::string versionText();

}  // namespace cli
