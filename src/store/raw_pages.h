// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The pages of a logbook file, as they stand or as a journal would put them back. For raw_rows.cpp
// only.
#pragma once

#include "store/journal_file.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <string_view>

namespace store {

// A file by its pages: each is read by itself, so that one that cannot be read costs no other.
// Those in the journal stand in the place of those in the file.
class Pages {
public:
    Pages(const std::filesystem::path& file, std::size_t pageSize, std::uint64_t bytes,
          const JournalFile* journal)
        : m_stream(file, std::ios::binary),
          m_pageSize(pageSize),
          m_inFile(bytes / pageSize),
          m_count(m_inFile),
          m_journal(journal) {
        if (journal == nullptr) {
            return;
        }
        journal->forEachPage([&](std::uint64_t page, std::string_view, std::int64_t place) {
            m_places[page] = place;
            return true;
        });
        const auto last = m_places.empty() ? 0 : m_places.rbegin()->first;
        m_count = std::min(journal->pages(), std::max(m_inFile, last));
    }

    [[nodiscard]] std::size_t pageSize() const { return m_pageSize; }
    [[nodiscard]] std::uint64_t count() const { return m_count; }

    // Those of the file that it was tried in vain to read.
    [[nodiscard]] const std::set<std::uint64_t>& unread() const { return m_unread; }

    // Whether it could be read into `page`; the first is 1.
    bool read(std::uint64_t number, std::string& page) {
        if (number == 0 || number > m_count || m_unread.contains(number)) {
            return false;
        }
        if (const auto put = m_places.find(number); put != m_places.end()) {
            return m_journal->read(put->second, page);
        }
        if (number > m_inFile) {
            return false;
        }
        // What the disk did not give it may give when it is asked again.
        const bool isRead = readOnce(number, page) || readOnce(number, page);
        if (!isRead) {
            m_unread.insert(number);
        }
        return isRead;
    }

private:
    bool readOnce(std::uint64_t number, std::string& page) {
        page.resize(m_pageSize);
        m_stream.clear();
        m_stream.seekg(static_cast<std::streamoff>((number - 1) * m_pageSize));
        m_stream.read(page.data(), static_cast<std::streamsize>(m_pageSize));
        return m_stream.good();
    }

    std::ifstream m_stream;
    std::size_t m_pageSize;
    std::uint64_t m_inFile;
    std::uint64_t m_count;
    const JournalFile* m_journal;
    std::map<std::uint64_t, std::int64_t> m_places{};  // in the journal
    std::set<std::uint64_t> m_unread{};
};

}  // namespace store
