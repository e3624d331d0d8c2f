// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The holder file beside a logbook: who holds its lock, on which computer, since when. It is
// advisory: nothing is decided by it. For this folder only; knows nothing of SQLite.
#pragma once

#include "store/trouble.h"

#include <filesystem>
#include <optional>
#include <string>

namespace store {

// LOGBOOK.holder
[[nodiscard]] std::filesystem::path holderPath(const std::filesystem::path& logbook);

// Nothing if there is no such file, it is no holder file, or the process it names ran on this
// computer and is gone.
[[nodiscard]] std::optional<Holder> readHolder(const std::filesystem::path& logbook);

// The file, for as long as this lives. It is removed in the end unless another writer has put its
// own in its place. Trouble with it is passed over.
class HolderFile {
public:
    HolderFile(const std::filesystem::path& logbook, const Holder& holder);
    ~HolderFile();
    HolderFile(const HolderFile&) = delete;
    HolderFile& operator=(const HolderFile&) = delete;

private:
    std::filesystem::path m_path;
    std::string m_text;
};

}  // namespace store
