// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Journals as the database writes them, byte by byte; by "The Rollback Journal" in SQLite's
// fileformat2.html.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace store::test {

inline constexpr std::size_t pageSize = 4096;
inline constexpr std::string_view journalMagic("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8);

inline std::string number(std::size_t value) {
    std::string bytes;
    for (int shift = 24; shift >= 0; shift -= 8) {
        bytes += static_cast<char>(value >> static_cast<unsigned>(shift) & 0xFFU);
    }
    return bytes;
}

// One that puts those pages back into a database of as many.
inline std::string journal(std::size_t pages,
                           const std::vector<std::pair<std::size_t, std::string>>& back) {
    constexpr std::size_t nonce = 7;
    std::string bytes = std::string(journalMagic) + number(back.size()) + number(nonce) +
                        number(pages) + number(512) + number(pageSize);
    bytes.resize(512);
    for (const auto& [page, content] : back) {
        std::size_t sum = nonce;
        for (std::size_t place = pageSize - 200; place < pageSize; place -= 200) {
            sum += place > 0 ? static_cast<unsigned char>(content[place]) : 0;
        }
        bytes += number(page) + content + number(sum);
    }
    return bytes;
}

inline std::string pageOf(const std::string& bytes, std::size_t page) {
    return bytes.substr((page - 1) * pageSize, pageSize);
}

// With which a write from the one to the other could be undone.
inline std::string journalBetween(const std::string& before, const std::string& after) {
    std::vector<std::pair<std::size_t, std::string>> back;
    for (std::size_t page = 1; page <= before.size() / pageSize; ++page) {
        if (pageOf(before, page) != pageOf(after, page)) {
            back.emplace_back(page, pageOf(before, page));
        }
    }
    return journal(before.size() / pageSize, back);
}

}  // namespace store::test
