// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands under a name before anything is made there, or taken away. Asked of the operating
// system in system.cpp, as all else is. Opens nothing.
#pragma once

#include <filesystem>

namespace station::system {

enum class FileKind { None, Plain, Folder, Other };

// Of the name itself: a link is Other, whatever it leads to.
[[nodiscard]] FileKind kindOf(const std::filesystem::path& path);

// What a link leads to counts.
[[nodiscard]] FileKind kindBehind(const std::filesystem::path& path);

// Whether something stands there that is no folder, nor leads to one.
[[nodiscard]] bool isInWayOfFolder(const std::filesystem::path& path);

// Whether a logbook that bears the name without its ending would take the file for its own, as the
// journal of a write that was cut off or as who holds the lock, and empty or delete it; or would
// have its backups in a folder of that name.
[[nodiscard]] bool isSideName(const std::filesystem::path& path);

}  // namespace station::system
