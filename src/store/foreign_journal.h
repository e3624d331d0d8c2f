// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The texts of the Io that is told where what lies beside a logbook under the name of its journal
// is not what a write of its own that was cut off has left: the database would play it back, write
// over it or delete it.
#pragma once

#include <string_view>

namespace store {

// A link leads to another file, and for a pipe the database would wait for ever.
inline constexpr std::string_view journalIsNoPlainFile = "its -journal is no plain file";
// Whoever plays it back deletes that file.
inline constexpr std::string_view journalNamesFile = "its -journal names another file";
inline constexpr std::string_view journalHasTwoNames = "its -journal has a second name";
inline constexpr std::string_view journalIsNone = "its -journal is none";
// Of this file's, or of another's.
inline constexpr std::string_view journalOfOtherTime = "its -journal is of another time";

}  // namespace store
