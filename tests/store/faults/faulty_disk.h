// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A disk that fails at a chosen call. It stands before the system's file layer of SQLite as the
// default one, and before the system's calls that the store makes itself, while an object of it
// lives; so the store under test is the one that people run. One at a time.
#pragma once

#include "disk_model.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string_view>

namespace store::test {

enum class Call { Read, Write, Sync, Truncate, Delete, Lock, Unlock, Look, Make, Move };
inline constexpr int callKinds = 10;
[[nodiscard]] std::string_view name(Call call);

enum class Failure {
    Io,          // the call fails, whichever it is
    Full,        // the disk says that it is full: to what writes or makes a file
    ShortWrite,  // half of the bytes are written, then an error
    PowerCut,    // the call may still be half done; all after it fails
};
[[nodiscard]] std::string_view name(Failure failure);

struct Fault {
    Failure failure{};
    int call = 0;          // the number of the call that fails, of those that may; 0: none
    bool forGood = false;  // and all after it
    std::uint32_t seed = 0;
};

class FaultyDisk {
public:
    FaultyDisk(const std::filesystem::path& folder, const Fault& fault);
    ~FaultyDisk();
    FaultyDisk(const FaultyDisk&) = delete;
    FaultyDisk& operator=(const FaultyDisk&) = delete;

    // As if the journal were off: what is written to one is kept nowhere.
    void loseJournals();

    // What happens to a file when it has been flushed.
    void whenFlushed(std::function<void(const std::filesystem::path&)> happens);
    // As on a share that cannot wait for the names of a folder.
    void flushNoFolders();

    // The call that failed first, if one has.
    [[nodiscard]] std::optional<Call> fired() const;
    // No call fails from now on.
    void heal();
    // Makes the folder what a power cut leaves. Nothing in it may be open.
    void cutPower();
};

}  // namespace store::test
