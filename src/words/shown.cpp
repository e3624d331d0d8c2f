// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Walks UTF-8 and escapes what must not be shown as it is. Knows no sentence.
#include "words/shown.h"

#include <array>
#include <cstdint>
#include <cstdio>

namespace words {

namespace {

struct Range {
    std::uint32_t first, last;
};

// General categories Cc, Cf (those that steer or hide), Zl, Zp and Co of the Unicode Character
// Database, and what it calls Default_Ignorable_Code_Point but for the variation selectors FE00 to
// FE0F, which choose how the character before them looks. 2800 has the look of a blank.
constexpr std::array hidden{
    Range{0x0000, 0x001F},   Range{0x007F, 0x009F},   Range{0x00AD, 0x00AD},
    Range{0x034F, 0x034F},   Range{0x061C, 0x061C},   Range{0x115F, 0x1160},
    Range{0x17B4, 0x17B5},   Range{0x180B, 0x180F},   Range{0x200B, 0x200F},
    Range{0x2028, 0x202E},   Range{0x2060, 0x206F},   Range{0x2800, 0x2800},
    Range{0x3164, 0x3164},   Range{0xE000, 0xF8FF},   Range{0xFEFF, 0xFEFF},
    Range{0xFFA0, 0xFFA0},   Range{0xFFF0, 0xFFFB},   Range{0x1BCA0, 0x1BCA3},
    Range{0x1D173, 0x1D17A}, Range{0xE0000, 0xE0FFF}, Range{0xF0000, 0x10FFFF},
};

// Noncharacter_Code_Point: never a character's, and shown as anything or nothing.
bool isNoCharacter(std::uint32_t code) {
    return (code & 0xFFFEU) == 0xFFFEU || (code >= 0xFDD0 && code <= 0xFDEF);
}

constexpr std::array combining{
    Range{0x0300, 0x036F}, Range{0x0483, 0x0489}, Range{0x0591, 0x05BD},
    Range{0x064B, 0x065F}, Range{0x1AB0, 0x1AFF}, Range{0x1DC0, 0x1DFF},
    Range{0x20D0, 0x20FF}, Range{0xFE00, 0xFE0F}, Range{0xFE20, 0xFE2F},
};

constexpr std::array wide{
    Range{0x1100, 0x115F},   Range{0x2E80, 0x303E},   Range{0x3041, 0xA4CF},
    Range{0xAC00, 0xD7A3},   Range{0xF900, 0xFAFF},   Range{0xFE30, 0xFE6F},
    Range{0xFF00, 0xFF60},   Range{0xFFE0, 0xFFE6},   Range{0x1F300, 0x1F64F},
    Range{0x1F900, 0x1F9FF}, Range{0x20000, 0x3FFFD},
};

template <std::size_t N>
bool isIn(const std::array<Range, N>& ranges, std::uint32_t character) {
    for (const auto& range : ranges)
        if (character >= range.first && character <= range.last) return true;
    return false;
}

struct Character {
    std::uint32_t code = 0;
    std::size_t length = 0;  // 0: no UTF-8 here
};

Character characterAt(std::string_view text, std::size_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    if (first < 0x80) return {first, 1};
    const std::size_t length = first >= 0xF0 && first < 0xF5   ? 4
                               : first >= 0xE0 && first < 0xF0 ? 3
                               : first >= 0xC2 && first < 0xE0 ? 2
                                                               : 0;
    if (length == 0 || at + length > text.size()) return {};
    std::uint32_t code = first & (0xFFU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        const auto next = static_cast<unsigned char>(text[at + i]);
        if ((next & 0xC0) != 0x80) return {};
        code = code << 6 | (next & 0x3FU);
    }
    constexpr std::array<std::uint32_t, 5> smallest{0, 0, 0x80, 0x800, 0x10000};
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (code < smallest[length] || code > 0x10FFFF || surrogate) return {};
    return {code, length};
}

std::string escaped(char letter, std::uint32_t code) {
    std::array<char, 16> buffer{};
    std::snprintf(buffer.data(), buffer.size(), letter == 'u' ? "\\u{%04X}" : "\\x{%02X}", code);
    return buffer.data();
}

std::size_t columnsOf(Character character) {
    if (character.length == 0) return 1;
    if (isIn(combining, character.code)) return 0;
    return isIn(wide, character.code) ? 2 : 1;
}

}  // namespace

std::string shown(std::string_view text) {
    std::string safe;
    safe.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const auto character = characterAt(text, at);
        if (character.length == 0) {
            safe += escaped('x', static_cast<unsigned char>(text[at]));
        } else if (isIn(hidden, character.code) || isNoCharacter(character.code)) {
            safe += escaped('u', character.code);
        } else {
            safe += text.substr(at, character.length);
        }
        at += character.length == 0 ? 1 : character.length;
    }
    return safe;
}

std::size_t columns(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto character = characterAt(text, at);
        count += columnsOf(character);
        at += character.length == 0 ? 1 : character.length;
    }
    return count;
}

std::string firstColumns(std::string_view text, std::size_t count) {
    std::size_t used = 0;
    std::size_t at = 0;
    while (at < text.size()) {
        const auto character = characterAt(text, at);
        used += columnsOf(character);
        if (used > count) break;
        at += character.length == 0 ? 1 : character.length;
    }
    return std::string(text.substr(0, at));
}

}  // namespace words
