// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The state behind the disk that fails, which both of its files work on.
#pragma once

#include "faulty_disk.h"

#include <memory>
#include <optional>
#include <sqlite3.h>

namespace store::test {

struct FaultyState {
    Fault fault;
    int callsLeft = 0;
    bool healed = false;
    bool journalsLost = false;
    bool foldersNotFlushed = false;
    std::function<void(const std::filesystem::path&)> whenFlushed;
    std::optional<Call> fired;
    std::unique_ptr<DiskModel> model;
    sqlite3_vfs* system = nullptr;
    sqlite3_vfs layer{};

    // Whether the power is gone.
    [[nodiscard]] bool dead() const {
        return fired && !healed && fault.failure == Failure::PowerCut;
    }
    // Counts the call; whether it fails.
    [[nodiscard]] bool fails(Call call);
};

// Whether two names are exchanged in one step, as most file systems can.
[[nodiscard]] bool& exchangesNames();
// Whether a file is renamed in one step that replaces nothing.
[[nodiscard]] bool& renamesSafely();

// Of the one disk that there is; without one, `model` is null and no call fails.
[[nodiscard]] FaultyState& faultyState();

}  // namespace store::test
