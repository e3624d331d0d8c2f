// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether a logbook's schema is as it was made: asked before anybody enters what can wait, as
// verify asks it.
#pragma once

#include "store/trouble.h"

#include <filesystem>
#include <optional>

namespace store {

// Damaged, with what is not as it was made; nothing where all is, or nothing can be read.
[[nodiscard]] std::optional<Trouble> foreignSchemaAt(const std::filesystem::path& path);

}  // namespace store
