// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A database that gets its name only once it is whole: made under another name beside it. For
// this folder only; knows nothing of what is in it.
#pragma once

#include <filesystem>
#include <system_error>

namespace store {

class UnfinishedFile {
public:
    // Nothing is made yet.
    explicit UnfinishedFile(const std::filesystem::path& finalPath);
    // Removes what was made, and its journal, unless finished.
    ~UnfinishedFile();
    UnfinishedFile(const UnfinishedFile&) = delete;
    UnfinishedFile& operator=(const UnfinishedFile&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }
    [[nodiscard]] const std::filesystem::path& finalPath() const { return m_finalPath; }

    // What programs that were killed left of a file that was to have this name. Of a share nothing
    // goes: the program may run on another computer.
    void removeLeftOvers() const;

    // Gives it its name once it is on the disk; std::errc::file_exists if that is taken. No
    // connection to it may be open. Where it fails the name was not given.
    [[nodiscard]] std::error_code takeName() const;
    // Waits until the name is on the disk. Where that fails it has its name all the same.
    [[nodiscard]] std::error_code confirmName() const;

private:
    void remove() const;
    // A journal whose file is gone would be played back into the one that gets its name: it is
    // given another, ending in ".left-over", or ".left-over-2" and so on where that is taken.
    [[nodiscard]] std::error_code clearJournal() const;

    std::filesystem::path m_finalPath;
    std::filesystem::path m_path;
};

}  // namespace store
