// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Text from records made safe to show: nothing in it can hide, turn round or break a line.
#pragma once

#include <string>
#include <string_view>

namespace words {

// Control characters, line and paragraph separators, characters that steer the direction of text,
// invisible ones and byte-order marks appear as "\u{202E}"; bytes that are no UTF-8 as "\x{FF}".
// Saying it twice changes nothing.
[[nodiscard]] std::string shown(std::string_view text);

// How many columns the text takes in a fixed-width font: one a character, none for a combining
// mark, two for East Asian wide ones.
[[nodiscard]] std::size_t columns(std::string_view text);

// The first `count` columns of the text.
[[nodiscard]] std::string firstColumns(std::string_view text, std::size_t count);

}  // namespace words
