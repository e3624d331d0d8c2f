// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A journal, read from its bytes without the database: what playing it back would put where. "The
// Rollback Journal" in SQLite's fileformat2.html. For this folder only.
#pragma once

#include "store/layer_file.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace store {

// "data.logbook-journal" of "data.logbook".
[[nodiscard]] std::filesystem::path journalOf(const std::filesystem::path& database);

class JournalFile {
public:
    // What lies beside that database and is a plain file; else it is empty.
    explicit JournalFile(const std::filesystem::path& database);

    // Whether it has the beginning without which nothing of it is played back.
    [[nodiscard]] bool isPlayed() const { return m_pageSize != 0; }
    [[nodiscard]] std::size_t pageSize() const { return m_pageSize; }
    // How many the database is cut to.
    [[nodiscard]] std::uint64_t pages() const { return m_pages; }

    // Whether it ends in the name of a file that is deleted after that.
    [[nodiscard]] bool namesFile() const;
    // Whether it is surely none: what a power cut leaves of one may begin with anything, but is no
    // text and no database.
    [[nodiscard]] bool isNone() const;

    // The pages that are put back, and where each stands, in their order; until it returns false.
    using PageReader =
        std::function<bool(std::uint64_t page, std::string_view content, std::int64_t place)>;
    void forEachPage(const PageReader& reader) const;

    // Whether the disk has not given some of what was asked of it, and the system's number for why;
    // 0 where it cannot even be opened.
    [[nodiscard]] bool isUnread() const { return m_isUnread; }
    [[nodiscard]] int whyUnread() const { return m_whyUnread; }
    // Whether it begins neither as a journal does nor as one that was not begun or is done with.
    [[nodiscard]] bool isStrange() const;
    // Whether, of the pages that were gone through, it lacks one that it says it has, or one is not
    // as it was written: nothing behind that is put back.
    [[nodiscard]] bool isTorn() const { return m_isTorn; }

    // A page that stands there, whether it could be read.
    [[nodiscard]] bool read(std::int64_t place, std::string& page) const;

private:
    // False where it is not given, or less stands there.
    [[nodiscard]] bool bytesAt(std::int64_t place, std::size_t count, std::string& bytes) const;
    // Of the pages whose head stands there, until it returns false; where the last one ends.
    [[nodiscard]] std::optional<std::int64_t> forEachPageOf(std::int64_t head,
                                                            const PageReader& reader) const;

    LayerFile m_file;
    std::int64_t m_size;
    std::size_t m_sectorSize = 0;
    std::size_t m_pageSize = 0;
    std::uint64_t m_pages = 0;
    mutable bool m_isUnread = false;
    mutable int m_whyUnread = 0;
    mutable bool m_isTorn = false;
};

}  // namespace store
