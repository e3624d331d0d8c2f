// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows that stand in the pages of a logbook file, however damaged: read from the bytes, without
// the database and without what leads to a page. Nothing of it is believed; the chain proves it.
// For this folder only.
#pragma once

#include "store/hash.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace store {

struct RawRecord {
    std::string station;
    std::int64_t seq = 0;
    std::string content;
    Hash hash{};
};

// A head that was noted.
struct RawHead {
    std::string station;
    std::int64_t seq = 0;
};

struct RawRows {
    std::vector<RawRecord> records;  // in the order of the file; one may stand there twice
    std::vector<RawHead> heads;
    bool readable = false;           // whether the file could be read to its end
};

// The file format of SQLite, version 3: "B-tree Pages" and "Record Format" in fileformat2.html.
[[nodiscard]] RawRows rawRowsOf(const std::filesystem::path& file);

}  // namespace store
