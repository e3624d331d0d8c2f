// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Figures as texts of fixed width hold them; for the readers of days and instants only.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace logbook {

constexpr bool isDigit(char character) {
    return character >= '0' && character <= '9';
}

// The value of at most nine decimal figures; nothing if there is anything else, or no figure.
constexpr std::optional<int> digits(std::string_view text) {
    if (text.empty() || text.size() > 9) {
        return std::nullopt;
    }
    int value = 0;
    for (const char character : text) {
        if (!isDigit(character)) {
            return std::nullopt;
        }
        value = value * 10 + (character - '0');
    }
    return value;
}

// Figures at fixed places of a text that is long enough; what is no figure is taken note of, and
// asked about once at the end.
class FiguresAt {
public:
    explicit constexpr FiguresAt(std::string_view text) : m_text(text) {}

    [[nodiscard]] constexpr int two(std::size_t place) { return 10 * one(place) + one(place + 1); }
    [[nodiscard]] constexpr int three(std::size_t place) {
        return 10 * two(place) + one(place + 2);
    }
    [[nodiscard]] constexpr int four(std::size_t place) {
        return 100 * two(place) + two(place + 2);
    }
    [[nodiscard]] constexpr bool areAll() const { return m_areAll; }

private:
    [[nodiscard]] constexpr int one(std::size_t place) {
        m_areAll &= isDigit(m_text[place]);
        return m_text[place] - '0';
    }

    std::string_view m_text;
    bool m_areAll = true;
};

}  // namespace logbook
