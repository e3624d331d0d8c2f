// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Figures as texts of fixed width hold them; for the readers of days and instants only.
#pragma once

#include <algorithm>
#include <optional>
#include <string_view>

namespace logbook {

constexpr bool isDigit(char character) {
    return character >= '0' && character <= '9';
}

// The value of at most nine decimal figures; nothing if there is anything else, or no figure.
constexpr std::optional<int> digits(std::string_view text) {
    if (text.empty() || text.size() > 9 || !std::all_of(text.begin(), text.end(), isDigit)) {
        return std::nullopt;
    }
    int value = 0;
    for (const char character : text) {
        value = value * 10 + (character - '0');
    }
    return value;
}

}  // namespace logbook
