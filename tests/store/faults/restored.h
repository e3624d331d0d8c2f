// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Restoring the copy beside a ward over that ward, and what has to be so after each fault. Knows no
// fault.
#pragma once

#include "sweep.h"

#include <filesystem>
#include <optional>
#include <string>

namespace store::test {

// The name under which the ward is put aside.
inline constexpr const char* aside = "ward.logbook.before-20260302T140000Z";

// Under the station "icu-1b".
[[nodiscard]] std::optional<Trouble> restoreCopy(const std::filesystem::path& folder);

// The name under which the logbook from before is to be found. Where the power goes just before the
// names are exchanged, a copy of the backup stands beside it.
[[nodiscard]] std::string standing(const std::filesystem::path& folder);
// What restoreCopy puts there.
void checkIsBackup(const std::filesystem::path& path);
// What was confirmed is so, or what was told.
void checkRestored(const std::filesystem::path& folder, const Outcome& outcome);
// Where somebody was left to remove it.
void checkNoCopyLeft(const std::filesystem::path& folder, const Outcome& outcome);

}  // namespace store::test
