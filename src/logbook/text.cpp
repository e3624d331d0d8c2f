// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keys, station names and names. What a character is comes from utf8proc's tables.
#include "logbook/text.h"

#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <memory>

namespace logbook {

namespace {

constexpr std::size_t longestStationName = 32;
constexpr std::size_t longestName = 64;

constexpr bool isLower(char character) {
    return character >= 'a' && character <= 'z';
}

constexpr bool isLowerOrDigit(char character) {
    return isLower(character) || (character >= '0' && character <= '9');
}

constexpr auto isOfKey = [] {
    std::array<bool, 256> is{};
    for (std::size_t character = 0; character < 0x80; ++character) {
        is[character] = isLowerOrDigit(static_cast<char>(character)) || character == '_';
    }
    return is;
}();

// The first character and how many bytes it takes; `length` 0 if these bytes are no UTF-8.
struct Character {
    utf8proc_int32_t codePoint = 0;
    std::size_t length = 0;
};

Character firstOf(std::string_view text) {
    Character character;
    const auto length = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                         static_cast<utf8proc_ssize_t>(text.size()),
                                         &character.codePoint);
    character.length = length > 0 ? static_cast<std::size_t>(length) : 0;
    return character;
}

bool isControlOrSpace(utf8proc_int32_t codePoint) {
    switch (utf8proc_category(codePoint)) {
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_ZS:
    case UTF8PROC_CATEGORY_ZL:
    case UTF8PROC_CATEGORY_ZP:
        return true;
    default:
        return false;
    }
}

// Printable ASCII with single blanks is composed and needs no tables; most names are that.
bool isPlainName(std::string_view text) {
    if (text.size() > longestName) {
        return false;
    }
    bool isPlain = true;
    bool afterBlank = false;
    for (const char character : text) {
        const bool isBlank = character == ' ';
        isPlain &= character >= ' ' && character <= '~' && !(isBlank && afterBlank);
        afterBlank = isBlank;
    }
    return isPlain;
}

struct Free {
    void operator()(utf8proc_uint8_t* memory) const { std::free(memory); }
};

bool isComposed(std::string_view text) {
    utf8proc_uint8_t* memory = nullptr;
    const auto length = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                     static_cast<utf8proc_ssize_t>(text.size()), &memory,
                                     static_cast<utf8proc_option_t>(UTF8PROC_STABLE |
                                                                    UTF8PROC_COMPOSE));
    const std::unique_ptr<utf8proc_uint8_t, Free> owner(memory);
    return length >= 0 && text == std::string_view(reinterpret_cast<const char*>(memory),
                                                   static_cast<std::size_t>(length));
}

}  // namespace

bool isKey(std::string_view text) {
    return !text.empty() && isLower(text.front()) &&
           std::all_of(text.begin(), text.end(), [](char character) {
               return isOfKey[static_cast<unsigned char>(character)];
           });
}

bool isStationName(std::string_view text) {
    return !text.empty() && text.size() <= longestStationName && isLowerOrDigit(text.front()) &&
           std::all_of(text.begin(), text.end(), [](char character) {
               return isLowerOrDigit(character) || character == '-';
           });
}

bool isName(std::string_view text) {
    if (text.empty() || text.front() == ' ' || text.back() == ' ') {
        return false;
    }
    if (isPlainName(text)) {
        return true;
    }
    std::size_t count = 0;
    bool plain = true;
    bool afterBlank = false;
    for (std::string_view rest = text; !rest.empty(); ++count) {
        const Character character = firstOf(rest);
        const bool blank = character.codePoint == ' ';
        if (character.length == 0 || count == longestName || (blank && afterBlank) ||
            (!blank && isControlOrSpace(character.codePoint))) {
            return false;
        }
        plain = plain && character.length == 1;
        afterBlank = blank;
        rest.remove_prefix(character.length);
    }
    return plain || isComposed(text);
}

bool isUtf8(std::string_view text) {
    while (!text.empty()) {
        const auto plain = std::find_if(text.begin(), text.end(), [](char character) {
            return static_cast<unsigned char>(character) >= 0x80;
        });
        text.remove_prefix(static_cast<std::size_t>(plain - text.begin()));
        if (text.empty()) {
            return true;
        }
        const Character character = firstOf(text);
        if (character.length == 0) {
            return false;
        }
        text.remove_prefix(character.length);
    }
    return true;
}

}  // namespace logbook
