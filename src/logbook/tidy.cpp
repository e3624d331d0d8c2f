// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Names and keys brought into form; see tidy.h.
#include "logbook/tidy.h"

#include "logbook/text.h"

#include <utf8proc.h>

#include <algorithm>
#include <cstdlib>
#include <memory>

namespace logbook {

namespace {

struct Free {
    void operator()(utf8proc_uint8_t* memory) const { std::free(memory); }
};

// Also what ends a line, or is a tab.
bool isBlank(utf8proc_int32_t codePoint) {
    const auto category = utf8proc_category(codePoint);
    return category == UTF8PROC_CATEGORY_ZS || category == UTF8PROC_CATEGORY_ZL ||
           category == UTF8PROC_CATEGORY_ZP || (codePoint >= '\t' && codePoint <= '\r') ||
           codePoint == 0x85;
}

std::optional<std::string> composed(const std::string& text) {
    utf8proc_uint8_t* memory = nullptr;
    const auto length = utf8proc_map(
        reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
        static_cast<utf8proc_ssize_t>(text.size()), &memory,
        static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE));
    const std::unique_ptr<utf8proc_uint8_t, Free> owner(memory);
    return length < 0 ? std::nullopt
                      : std::optional(std::string(reinterpret_cast<const char*>(memory),
                                                  static_cast<std::size_t>(length)));
}

// Words with one blank between them.
std::string wordsOf(std::string_view text) {
    std::string words;
    bool isApart = false;
    while (!text.empty()) {
        utf8proc_int32_t codePoint = 0;
        const auto length = static_cast<std::size_t>(
            utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                             static_cast<utf8proc_ssize_t>(text.size()), &codePoint));
        if (isBlank(codePoint)) {
            isApart = true;
        } else if (utf8proc_category(codePoint) != UTF8PROC_CATEGORY_CC) {
            words += isApart && !words.empty() ? " " : "";
            words += text.substr(0, length);
            isApart = false;
        }
        text.remove_prefix(length);
    }
    return words;
}

}  // namespace

std::optional<std::string> tidyName(std::string_view text) {
    if (isName(text)) {
        return std::string(text);
    }
    if (!isUtf8(text)) {
        return std::nullopt;
    }
    auto name = composed(wordsOf(text));
    return name && (name->empty() || isName(*name)) ? name : std::nullopt;
}

std::optional<std::string> tidyKey(std::string_view text) {
    if (isKey(text)) {
        return std::string(text);
    }
    if (!isUtf8(text)) {
        return std::nullopt;
    }
    auto key = wordsOf(text);
    std::ranges::transform(key, key.begin(), [](char character) {
        const bool isLarge = character >= 'A' && character <= 'Z';
        return isLarge                               ? static_cast<char>(character - 'A' + 'a')
               : character == ' ' || character == '-' ? '_'
                                                      : character;
    });
    return key.empty() || isKey(key) ? std::optional(std::move(key)) : std::nullopt;
}

}  // namespace logbook
