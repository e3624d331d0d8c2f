// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// With what every file of the database begins, as of "The Database Header" in SQLite's
// fileformat2.html.
#pragma once

#include <string_view>

namespace store {

inline constexpr std::string_view databaseMark("SQLite format 3\0", 16);

}  // namespace store
