// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking at what lies beside a database under the name of its journal, before the database does:
// that plays back, writes over or deletes whatever stands there. For this folder only.
#pragma once

#include <filesystem>
#include <optional>
#include <string_view>

namespace store {

// Why it cannot be what a write into this database that was cut off has left, a text of
// foreign_journal.h; nothing where it may be, or nothing lies there. Where the disk does not give
// what is asked it may be: the database tells of that.
[[nodiscard]] std::optional<std::string_view> refuseJournal(const std::filesystem::path& database);

}  // namespace store
