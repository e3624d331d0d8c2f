// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writes a large logbook for measurements: the file that appending would have made, without waiting
// for the disk. Records arrive as parcels do, each station's day at once.
#pragma once

#include "bench/hospital.h"
#include "store/hash.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace bench {

class BulkLogbook {
public:
    // Makes the file; stops the program if it is there or cannot be made.
    explicit BulkLogbook(const std::filesystem::path& path);

    void add(const WrittenRecord& record);

    // Writes what is left and puts the file's own guards in place again.
    void finish();

private:
    struct Chain {
        std::int64_t seq = 0;
        store::Hash hash{};
        std::int64_t enteredMs = 0;
    };

    void writeDay();
    void insert(const WrittenRecord& record);
    void noteHeads();

    SQLite::Database m_database;
    std::string m_trigger;  // as the schema has it
    SQLite::Statement m_insert;
    std::vector<WrittenRecord> m_day;
    std::map<std::string, Chain> m_chains;
    std::int64_t m_arrival = 0;
    std::int64_t m_arrivedMs = 0;
};

}  // namespace bench
