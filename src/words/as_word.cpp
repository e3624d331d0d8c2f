// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Quoting for a shell; see as_word.h.
#include "words/as_word.h"

#include <algorithm>

namespace words {

std::string asWord(std::string_view text) {
    constexpr std::string_view plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                       "0123456789_./-+:,@%=";
    const bool isPlain = std::all_of(text.begin(), text.end(), [&](char letter) {
        return static_cast<unsigned char>(letter) >= 0x80 || plain.find(letter) != plain.npos;
    });
    if (isPlain && !text.empty()) {
        return std::string(text);
    }
    std::string word = "'";
    for (const char letter : text) {
        word += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
    }
    return word + "'";
}

}  // namespace words
