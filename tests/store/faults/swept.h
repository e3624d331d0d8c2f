// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What lies in a folder before a sweep, and what has to be so after each fault. Knows no fault.
#pragma once

#include "store/logbook.h"
#include "sweep.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace store::test {

inline constexpr const char* ward = "ward.logbook";
inline constexpr const char* copy = "copy.logbook";

// How many notes of icu-1 the ward holds before, and how many a use brings.
[[nodiscard]] std::int64_t kept();
[[nodiscard]] std::int64_t brought();

// A ward with a station and its notes.
[[nodiscard]] Files keptFiles();
// As a power cut in the middle of a write leaves it, with its journal.
[[nodiscard]] Files cutOffFiles();

[[nodiscard]] std::optional<Trouble> troubleIn(const tl::expected<Logbook, Trouble>& opened);

// Notes 1 to `count` of icu-1 as they were written, and nothing else; it verifies.
void checkHolds(const std::filesystem::path& path, std::int64_t count);
// How many there are: all or none of what was brought, as it was told.
std::int64_t countIn(const std::filesystem::path& path, const Outcome& outcome);
// Whether what was asked for stands in the file, held against what was told of it.
void checkStands(bool isThere, const Outcome& outcome);
// No file is left lying about but those.
void checkNames(const std::filesystem::path& folder, const std::vector<std::string>& names);
// Restored elsewhere it holds the same. Of the same bytes once: the same comes of them.
void checkRestores(const std::filesystem::path& backup, std::int64_t count);
// The next write goes through, behind notes 1 to `count`.
void checkTakes(const std::filesystem::path& path, std::int64_t count);
// Whoever writes next finds nothing in the way, and leaves nothing lying about.
void checkGoesOn(const std::filesystem::path& folder, std::int64_t count);
// Where the power went, nobody was left to tidy up; else no file is left that was not finished.
void forgetUnfinished(const std::filesystem::path& folder, const Outcome& outcome);

}  // namespace store::test
