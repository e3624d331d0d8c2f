// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lock of a database that keeps out everyone, taken without reading anything of it: of a file
// that the disk does not give, or that is damaged, another program may yet be about to read it.
// For this folder only, since it shows SQLite.
#pragma once

#include "store/layer_file.h"

#include <filesystem>
#include <optional>
#include <string>

namespace store {

// Held while it lives.
class FileLock {
public:
    FileLock(const std::filesystem::path& file, int busyTimeoutMs);
    ~FileLock();
    FileLock(const FileLock&) = delete;
    FileLock& operator=(const FileLock&) = delete;

    // Others have it. Not where the system does not let it be had for another reason.
    [[nodiscard]] bool isBusy() const { return m_isBusy; }
    // That reason. Nothing where the system knows no locks there, or does not let the file be
    // opened at all: then nobody else has it either.
    [[nodiscard]] const std::optional<std::string>& failure() const { return m_failure; }

private:
    LayerFile m_file;
    bool m_isBusy = false;
    std::optional<std::string> m_failure;
};

}  // namespace store
