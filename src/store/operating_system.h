// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the store asks of the operating system beyond files as such. One implementation a system:
// operating_system_linux.cpp. Knows nothing of SQLite or records.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>

namespace store::system {

[[nodiscard]] std::int64_t processNumber();
[[nodiscard]] std::string computerName();

// Whether a process of that number runs on this computer, whoever owns it.
[[nodiscard]] bool processRuns(std::int64_t number);

// What programs of this user keep to themselves from one time to the next (XDG Base Directory
// Specification, "state"); it need not be there yet. Nothing if the user has no folder.
[[nodiscard]] std::optional<std::filesystem::path> folderOfUser();

[[nodiscard]] bool mayRead(const std::filesystem::path& file);
// Whether this user may change the file, or make files in the folder.
[[nodiscard]] bool mayWrite(const std::filesystem::path& fileOrFolder);

// "nfs", "cifs", "smb", "9p" or "fuse" for the type numbers that the system gives these; nothing
// for others.
[[nodiscard]] std::optional<std::string_view> networkFileSystem(std::uint64_t typeNumber);
// The same of the file system that holds a file or folder; nothing too if it cannot be asked.
[[nodiscard]] std::optional<std::string_view> networkFileSystemOf(
    const std::filesystem::path& fileOrFolder);

// Makes an empty file that nobody but this user may read or write; std::errc::file_exists if there
// is one. What the database makes beside it takes over who may read it.
[[nodiscard]] std::error_code makePrivateFile(const std::filesystem::path& path);

// A small file of whoever writes beside a logbook, which may lie in a stranger's folder: nothing is
// read or written through a link, nor what is no plain file or has a second name.
// Nothing if it cannot be read or is longer than that.
[[nodiscard]] std::optional<std::string> readSmallFile(const std::filesystem::path& path,
                                                       std::size_t mostBytes);
// Makes it, or puts the text in the place of what is in it; whether it did.
bool writeSmallFile(const std::filesystem::path& path, std::string_view text);

// Waits until the file, or the names in the folder, are on the disk.
// No error where the system cannot wait for the names of a folder.
[[nodiscard]] std::error_code flush(const std::filesystem::path& fileOrFolder);
// And reads the file from the disk when it is read again, as far as the system lets itself be told.
[[nodiscard]] std::error_code flushAndForget(const std::filesystem::path& file);

// A copy with the same rights, which is on the disk; std::errc::file_exists if `to` is there.
[[nodiscard]] std::error_code copyFile(const std::filesystem::path& from,
                                       const std::filesystem::path& to);
[[nodiscard]] std::error_code removeFile(const std::filesystem::path& path);

// Which file stands at a name, whatever name it had before: equal for the same file of one file
// system. Nothing if none does.
[[nodiscard]] std::optional<std::uint64_t> fileNumber(const std::filesystem::path& path);

// Gives each of two files of a folder the other's name in one step. std::errc::invalid_argument or
// function_not_supported where the file system has no such step; nothing was done then.
[[nodiscard]] std::error_code exchangeNames(const std::filesystem::path& one,
                                            const std::filesystem::path& other);

// Renames in one step; std::errc::file_exists if `to` is there, which then stays as it is.
[[nodiscard]] std::error_code moveWithoutReplacing(const std::filesystem::path& from,
                                                   const std::filesystem::path& to);

}  // namespace store::system
