// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Everything the use cases ask of the operating system: its clock, its time zones, whole files.
// One implementation, system.cpp; nothing else in this folder may ask the system.
#pragma once

#include "rules/zone.h"
#include "station/clock.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace station::system {

// The clock of this computer, in whole seconds: what a person writes down is no finer.
class SystemClock : public Clock {
public:
    [[nodiscard]] logbook::Instant now() const override;
    [[nodiscard]] std::optional<SinceStart> sinceStart() const override;
};

// The zones of this computer's database, with their transitions from 1970 to 2100. A name that the
// database does not hold gives null, as does one that means the zone of this computer; the same
// name gives the same object. May be called from one thread at a time.
[[nodiscard]] rules::ZoneSource systemZones();

// The name under which the person at this computer is signed in to it; "unknown" if there is none.
[[nodiscard]] std::string loginName();

// The locales that the person at this computer wants, best first, by the variables LANGUAGE,
// LC_ALL, LC_MESSAGES and LANG: "es", "en_US.UTF-8". LANGUAGE does not count where the locale is
// "C", "C.UTF-8" or "POSIX", which scripts ask for (GNU gettext manual, "The LANGUAGE variable").
[[nodiscard]] std::vector<std::string> localesWanted();

enum class FileTrouble {
    NotFound,
    NotPermitted,
    NotAFile,     // a folder
    NoPlainFile,  // a pipe or a device, which may never end or never begin
    TooLong,
    Exists,
    DiskFull,
    Io
};

// Files of records or rules beyond this are not read.
inline constexpr std::uintmax_t longestFile = 1ULL << 30;

[[nodiscard]] bool exists(const std::filesystem::path& path);

// Which file bears that name now: another one under the same name is told apart from it for as long
// as it is there or held open. None if there is no such file.
struct FileIdentity {
    std::uint64_t device = 0, number = 0;
    bool operator==(const FileIdentity&) const = default;
};
[[nodiscard]] std::optional<FileIdentity> identityOf(const std::filesystem::path& path);

// What tells that place from any other: the computer, and on it the file's full path. For this
// program alone, not to be shown (machine-id(5)).
[[nodiscard]] std::string homeOf(const std::filesystem::path& path);

// All bytes of the file; no more than that are read of one that is TooLong.
[[nodiscard]] tl::expected<std::string, FileTrouble> readFile(
    const std::filesystem::path& path, std::uintmax_t mostBytes = longestFile);

// Writes a new file, which has its name only once it is whole and on the disk. Exists if there is
// one of that name, which then stays as it is.
[[nodiscard]] tl::expected<void, FileTrouble> writeNewFile(const std::filesystem::path& path,
                                                           std::string_view bytes);

// Gives a file the name of another, which is gone then, in one step.
[[nodiscard]] tl::expected<void, FileTrouble> replaceFile(const std::filesystem::path& from,
                                                          const std::filesystem::path& to);

// Makes the folder, for this user alone; whether it is there then.
[[nodiscard]] bool makeFolder(const std::filesystem::path& path);

// Of what lies in the folder, in any order; none if it cannot be read.
[[nodiscard]] std::vector<std::string> namesIn(const std::filesystem::path& folder);

// Whom a thread lets go first where there is more to do than this computer has cores: the one that
// paints, or all whose work somebody waits for.
enum class Way { ToPainting, ToAll };

// From now on the calling thread, and those that it begins, give way; what gave way further before
// goes on doing so.
void giveWay(Way way);

// Removes a logbook that this call has just made and could not fill, or a backup of which there are
// newer ones.
void removeFile(const std::filesystem::path& path);

}  // namespace station::system
