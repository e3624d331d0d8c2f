// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Counting the names of a file; see second_name.h.
#include "store/second_name.h"

#include "store/operating_system.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <system_error>

namespace store {

namespace {

using Path = std::filesystem::path;

// What follows the name of a logbook in those that the program gives a file for a while.
constexpr std::array<std::string_view, 2> endings = {".before-", ".unfinished-"};

// The name without that.
std::string baseOf(const std::string& name) {
    std::size_t end = name.size();
    for (const auto ending : endings) {
        end = std::min(end, name.rfind(ending));
    }
    return name.substr(0, end);
}

bool isOwnName(const std::string& name, const std::string& base) {
    return name == base || std::ranges::any_of(endings, [&](std::string_view ending) {
        return name.starts_with(base + std::string(ending));
    });
}

std::uintmax_t ownNamesOf(const Path& file) {
    const auto number = system::fileNumber(file);
    const auto base = baseOf(file.filename().string());
    std::uintmax_t count = 0;
    std::error_code error;
    std::filesystem::directory_iterator entry(file.parent_path(), error);
    for (; !error && entry != std::filesystem::directory_iterator(); entry.increment(error)) {
        const bool isOwn = isOwnName(entry->path().filename().string(), base);
        count += isOwn && system::fileNumber(entry->path()) == number ? 1 : 0;
    }
    return count;
}

}  // namespace

bool hasSecondName(const Path& logbook) {
    std::error_code error;
    const auto file = std::filesystem::canonical(logbook, error);
    if (error) {
        return false;
    }
    const auto names = std::filesystem::hard_link_count(file, error);
    return !error && names > 1 && names > ownNamesOf(file);
}

std::optional<Trouble> refuseSecondName(const Path& logbook) {
    if (!hasSecondName(logbook)) {
        return std::nullopt;
    }
    Trouble trouble;
    trouble.code = Trouble::Code::Io;
    trouble.path = logbook;
    trouble.text = fileHasTwoNames;
    return trouble;
}

}  // namespace store
