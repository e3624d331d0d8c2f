// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether a logbook's file has more than one name. The journal of a write that is cut off lies
// beside the name by which it was written, so that by another name nothing undoes it, and what is
// written there is undone together with it later.
#pragma once

#include "store/trouble.h"

#include <filesystem>
#include <optional>
#include <string_view>

namespace store {

// The text of the Io that is told of it.
inline constexpr std::string_view fileHasTwoNames = "the file has a second name";

// Those that a restore, a backup or the making of a file may have left beside it do not count. Nor
// does a link, which leads to the one name.
[[nodiscard]] bool hasSecondName(const std::filesystem::path& logbook);

// For what can wait; nothing where it has one name, or is not there.
[[nodiscard]] std::optional<Trouble> refuseSecondName(const std::filesystem::path& logbook);

}  // namespace store
