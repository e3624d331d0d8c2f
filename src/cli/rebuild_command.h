// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// rebuild: what is derived from the entries, thrown away and made again.
#pragma once

#include "cli/command.h"

#include <memory>

namespace cli {

[[nodiscard]] std::unique_ptr<const Command> makeRebuildCommand();

}  // namespace cli
