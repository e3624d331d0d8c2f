// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Places of a file that the disk does not give, while an object of this lives: the system's calls
// that read tell an error there, whoever makes them. One at a time.
#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <limits>

namespace store::test {

struct BadPlace {
    std::uint64_t from = 0, size = std::numeric_limits<std::int64_t>::max();  // bytes
    int error = 0;                                  // of errno, that the system tells there
    int times = std::numeric_limits<int>::max();  // then it is given
    std::chrono::milliseconds takes{0};           // until the error is told
};

class BadSectors {
public:
    BadSectors(const std::filesystem::path& file, const BadPlace& place);
    ~BadSectors();
    BadSectors(const BadSectors&) = delete;
    BadSectors& operator=(const BadSectors&) = delete;

    // How often the error was told.
    [[nodiscard]] int met() const;
};

}  // namespace store::test
