// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The two bytes at the head of a logbook by which the database decides whether it may write it and
// read it: where one of them came to harm, the database takes the file for one of a later version
// of its own, and says that it is read-only or no database.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

namespace store {

// What is wrong with them, for Trouble's Damaged and a verify. Nothing where they are as any
// version of this program writes them, where the file bears no mark of a logbook, or where the disk
// does not give its beginning: the database tells of that.
[[nodiscard]] std::optional<std::string> harmOfHeader(const std::filesystem::path& path);

}  // namespace store
