// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the commands that correct entries share: reading what is to be corrected, and answering.
#pragma once

#include "cli/command.h"
#include "station/correction.h"

namespace cli {

[[nodiscard]] station::Result<station::Correction> correctionOf(
    const Call& call, const station::Surroundings& surroundings);

[[nodiscard]] Answer answerOf(const station::Corrected& corrected, const words::Words& words);

}  // namespace cli
