// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether a logbook's schema is as it was made, as verify asks it: before anybody enters what can
// wait, and once more when it is written.
#pragma once

#include "store/trouble.h"

#include <filesystem>
#include <optional>

namespace store {

// Damaged, with what is not as it was made; nothing where all is, or nothing can be read.
[[nodiscard]] std::optional<Trouble> foreignSchemaAt(const std::filesystem::path& path);

// The same, or why it cannot be told: for what can wait, while no other can write.
[[nodiscard]] std::optional<Trouble> refuseSchemaAt(const std::filesystem::path& path);

}  // namespace store
