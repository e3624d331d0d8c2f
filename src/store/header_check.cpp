// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking at the head of the file; see header_check.h.
#include "store/header_check.h"

#include "store/database_mark.h"
#include "store/layer_file.h"
#include "store/schema.h"

#include <array>
#include <cstdint>
#include <string_view>

namespace store {

namespace {

// "The Database Header" in SQLite's fileformat2.html.
constexpr std::size_t headSize = 100;
constexpr std::size_t writePlace = 18, readPlace = 19, applicationPlace = 68;
constexpr int withJournal = 1, withLog = 2;  // the versions that there are

std::uint32_t numberAt(std::string_view head, std::size_t place) {
    std::uint32_t number = 0;
    for (const char byte : head.substr(place, 4)) {
        number = number << 8U | static_cast<unsigned char>(byte);
    }
    return number;
}

}  // namespace

std::optional<std::string> harmOfHeader(const std::filesystem::path& path) {
    const LayerFile file(path);
    std::array<char, headSize> bytes{};
    if (file.read(bytes.data(), bytes.size(), 0) != SQLITE_OK) {
        return std::nullopt;
    }
    const std::string_view head(bytes.data(), bytes.size());
    if (!head.starts_with(databaseMark) ||
        numberAt(head, applicationPlace) != static_cast<std::uint32_t>(applicationId)) {
        return std::nullopt;
    }
    const int write = static_cast<unsigned char>(head[writePlace]);
    const int read = static_cast<unsigned char>(head[readPlace]);
    if (write == read && (write == withJournal || write == withLog)) {
        return std::nullopt;
    }
    return "its header says version " + std::to_string(write) + " for writing and " +
           std::to_string(read) + " for reading (bytes 18 and 19)";
}

}  // namespace store
