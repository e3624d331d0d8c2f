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
#include <iterator>
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
          m_last(journal == nullptr ? m_inFile : journal->pages()),
          m_journal(journal) {
        if (journal == nullptr) {
            return;
        }
        journal->forEachPage([&](std::uint64_t page, std::string_view, std::int64_t place) {
            m_places[page] = place;
            return true;
        });
    }

    [[nodiscard]] std::size_t pageSize() const { return m_pageSize; }
    // How many there are: those in the file, and those that only the journal has.
    [[nodiscard]] std::uint64_t count() const {
        const auto beyond = std::distance(m_places.upper_bound(m_inFile), m_places.end());
        return std::min(m_inFile, m_last) + static_cast<std::uint64_t>(beyond);
    }
    // The one behind that; 0 where there is none. They are walked through by this alone: in the
    // journal of a stranger a page may be one of billions.
    [[nodiscard]] std::uint64_t next(std::uint64_t number) const {
        if (number < std::min(m_inFile, m_last)) {
            return number + 1;
        }
        const auto put = m_places.upper_bound(number);
        return put == m_places.end() ? 0 : put->first;
    }

    // Those of the file that it was tried in vain to read.
    [[nodiscard]] const std::set<std::uint64_t>& unread() const { return m_unread; }

    // Whether it could be read into `page`; the first is 1.
    bool read(std::uint64_t number, std::string& page) {
        if (number == 0 || number > m_last || m_unread.contains(number)) {
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
    std::uint64_t m_last;  // none has a higher number
    const JournalFile* m_journal;
    std::map<std::uint64_t, std::int64_t> m_places{};  // in the journal
    std::set<std::uint64_t> m_unread{};
};

}  // namespace store
