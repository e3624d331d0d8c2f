// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the disk does not give of a logbook: a part of it, all of it, or the journal by which a
// write that was cut off is undone. For this folder only.
#pragma once

#include "store/trouble.h"

#include <filesystem>
#include <optional>
#include <string>

namespace store {

// Whether it has something there and gives none of it.
[[nodiscard]] bool isNothingGiven(const std::filesystem::path& file);

// Whether something stands beside the database by which a write that was cut off is undone, and
// nobody is writing.
[[nodiscard]] bool hasJournalLeft(const std::filesystem::path& database);
// What the system says of it; nothing where it gives all of it, or there is none.
[[nodiscard]] std::optional<std::string> reasonOfJournal(const std::filesystem::path& database);

// Which of these it is.
[[nodiscard]] Trouble unreadTrouble(const std::filesystem::path& logbook,
                                    const std::string& reason);

}  // namespace store
