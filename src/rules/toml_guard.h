// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What must hold of a text before a TOML parser may see it. Knows nothing of rulebooks.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace rules {

// Where the first byte stands that is not part of valid UTF-8.
[[nodiscard]] std::optional<std::size_t> firstBadByte(std::string_view text);

// Where a dotted key has more names than any reader of the text needs; a parser that nests a table
// for each would run out of stack. Text in quotation marks and comments do not count.
[[nodiscard]] std::optional<std::size_t> firstDeepKey(std::string_view text);

struct TextPlace {
    int line = 1;
    int column = 1;  // in characters
};

[[nodiscard]] TextPlace textPlaceOf(std::string_view text, std::size_t offset);

}  // namespace rules
