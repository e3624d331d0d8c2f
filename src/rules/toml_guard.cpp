// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Guards before the TOML parser.
#include "rules/toml_guard.h"

#include <algorithm>

namespace rules {

namespace {

constexpr int dotsAllowed = 16;

struct Sequence {
    std::size_t length = 0;  // 0: no first byte of a character
    char32_t smallest = 0;   // a smaller character would be an overlong form
    char32_t bits = 0;       // of the first byte
};

Sequence sequenceOf(unsigned char first) {
    if (first < 0x80) {
        return {1, 0, first};
    }
    if (first >= 0xC0 && first < 0xE0) {
        return {2, 0x80, static_cast<char32_t>(first & 0x1F)};
    }
    if (first >= 0xE0 && first < 0xF0) {
        return {3, 0x800, static_cast<char32_t>(first & 0x0F)};
    }
    if (first >= 0xF0 && first < 0xF8) {
        return {4, 0x10000, static_cast<char32_t>(first & 0x07)};
    }
    return {};
}

// The length of the character at the beginning; 0 if there is none.
std::size_t characterLength(std::string_view text) {
    const auto sequence = sequenceOf(static_cast<unsigned char>(text.front()));
    if (sequence.length == 0 || sequence.length > text.size()) {
        return 0;
    }
    char32_t character = sequence.bits;
    for (std::size_t index = 1; index < sequence.length; ++index) {
        const auto byte = static_cast<unsigned char>(text[index]);
        if ((byte & 0xC0) != 0x80) {
            return 0;
        }
        character = (character << 6) | (byte & 0x3F);
    }
    const bool isSurrogate = character >= 0xD800 && character <= 0xDFFF;
    const bool isCharacter =
        character >= sequence.smallest && character <= 0x10FFFF && !isSurrogate;
    return isCharacter ? sequence.length : 0;
}

// The offset just past the quoted text that begins at `begin`, or past the end of the text.
std::size_t pastQuoted(std::string_view text, std::size_t begin) {
    const char quote = text[begin];
    const std::string_view triple = quote == '"' ? R"(""")" : "'''";
    const bool isTriple = text.substr(begin, 3) == triple;
    const std::string_view end = isTriple ? triple : triple.substr(0, 1);
    for (auto at = begin + end.size(); at < text.size(); ++at) {
        if (text[at] == '\\' && quote == '"') {
            ++at;
        } else if (text.substr(at, end.size()) == end) {
            return at + end.size();
        } else if (text[at] == '\n' && !isTriple) {
            return at;
        }
    }
    return text.size();
}

}  // namespace

std::optional<std::size_t> firstBadByte(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const auto length = characterLength(text.substr(at));
        if (length == 0) {
            return at;
        }
        at += length;
    }
    return std::nullopt;
}

std::optional<std::size_t> firstDeepKey(std::string_view text) {
    constexpr std::string_view separators = "=,[]{}\n";
    int dots = 0;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char letter = text[at];
        if (letter == '"' || letter == '\'') {
            at = pastQuoted(text, at) - 1;
        } else if (letter == '#') {
            at = std::min(text.find('\n', at), text.size()) - 1;
        } else if (separators.find(letter) != std::string_view::npos) {
            dots = 0;
        } else if (letter == '.' && ++dots > dotsAllowed) {
            return at;
        }
    }
    return std::nullopt;
}

TextPlace textPlaceOf(std::string_view text, std::size_t offset) {
    TextPlace place;
    for (const char byte : text.substr(0, offset)) {
        if (byte == '\n') {
            ++place.line;
            place.column = 1;
        } else if ((static_cast<unsigned char>(byte) & 0xC0) != 0x80) {
            ++place.column;
        }
    }
    return place;
}

}  // namespace rules
