// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a database beside which a write that was cut off has left its journal will say that it is,
// once that is undone: looked at in the bytes of both, so that what is none of ours is not touched.
// For this folder only.
#pragma once

#include <filesystem>
#include <optional>

namespace store {

// What its first page tells of it; both 0 where it tells nothing.
struct Mark {
    int application = 0;
    int schema = 0;
};

// By the first page in the journal, or else by that in the file. Nothing where the disk does not
// give what is asked, where pages may stand in a log instead, and while others write.
[[nodiscard]] std::optional<Mark> markOnceUndone(const std::filesystem::path& database);

}  // namespace store
