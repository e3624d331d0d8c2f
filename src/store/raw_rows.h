// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows that stand in the pages of a logbook file, however damaged: read from the bytes, without
// the database and without what leads to a page. Nothing of it is believed; the chain proves it.
// For this folder only.
#pragma once

#include "store/hash.h"

#include <cstddef>
#include <cstdint>
#include <deque>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

namespace store {

class JournalFile;
class Pages;

struct RawRecord {
    std::string_view station;  // lent by the rows
    std::int64_t seq = 0;
    Hash hash{};
    // Where it stands; its content is left there.
    std::uint64_t page = 0;      // the first is 1
    std::uint32_t pageSize = 0;
    std::uint32_t place = 0;     // on that page
};

// A head that was noted, with a record or by a verify.
struct RawHead {
    std::string station;
    std::int64_t seq = 0;
    bool isWithRecord = false;
};

// The file format of SQLite, version 3: "B-tree Pages" and "Record Format" in fileformat2.html.
// Whatever the file holds, no more of it is kept than its size, for each of the two sizes that its
// pages may have, and no more read of it than a few times its size: what is kept of a row is less
// than the shortest that is taken for one.
class RawRows {
public:
    // One that cannot be read, or is larger than any logbook, has no rows. With a journal, which
    // must outlive them: the rows that it would have once that is played back. Changes neither.
    explicit RawRows(const std::filesystem::path& file, const JournalFile* journal = nullptr);
    ~RawRows();
    RawRows(const RawRows&) = delete;
    RawRows& operator=(const RawRows&) = delete;

    // In the order of the file; one may stand there twice.
    [[nodiscard]] const std::deque<RawRecord>& records() const { return m_records; }
    // How many look like one, but bear no name of a station: they are in nobody's chain.
    [[nodiscard]] std::int64_t nameless() const { return m_nameless; }
    // Of each station the highest, for each size of a page, and whether one is noted with a record.
    [[nodiscard]] const std::vector<RawHead>& heads() const { return m_heads; }

    // Why the system does not tell even how large the file is; no error where it does.
    [[nodiscard]] const std::error_code& error() const { return m_error; }

    // How many pages, each of 4096 bytes, the disk did not give; without a journal.
    [[nodiscard]] std::int64_t unreadPages() const;

    // What a record says; empty if it cannot be read any more.
    [[nodiscard]] std::string contentOf(const RawRecord& record) const;

private:
    void collect(Pages& pages);

    std::map<std::size_t, std::unique_ptr<Pages>> m_pages;  // of each size that they may have
    std::set<std::string, std::less<>> m_stations;
    std::deque<RawRecord> m_records;
    std::int64_t m_nameless = 0;
    std::vector<RawHead> m_heads;
    std::error_code m_error;
};

}  // namespace store
