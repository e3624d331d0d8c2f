// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The moments in which a file is about to be given another name: the system's call for that is made
// known before it is done.
#pragma once

#include <filesystem>
#include <functional>

namespace store::test {

// While it lives. One at a time.
class Renames {
public:
    using Act = std::function<void(const std::filesystem::path& from,
                                   const std::filesystem::path& to)>;
    explicit Renames(Act act);
    ~Renames();
    Renames(const Renames&) = delete;
    Renames& operator=(const Renames&) = delete;
};

}  // namespace store::test
