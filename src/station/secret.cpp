// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Secrets in memory of libsodium's; see secret.h.
#include "station/secret.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <sodium.h>

namespace station {

namespace {

constexpr std::string_view codeLetters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr std::size_t codeLength = 20;
constexpr std::size_t codeGroup = 4;

bool isDigit(char letter) {
    return letter >= '0' && letter <= '9';
}

// Whether each digit follows the one before it by `step`, 0 coming after 9.
bool goesBy(std::string_view digits, int step) {
    return std::adjacent_find(digits.begin(), digits.end(), [step](char a, char b) {
               return (a - '0' + step) % 10 != b - '0';
           }) == digits.end();
}

char meant(char letter) {
    if (letter >= 'a' && letter <= 'z') {
        letter = static_cast<char>(letter - 'a' + 'A');
    }
    switch (letter) {
        case 'O': return '0';
        case 'I':
        case 'L': return '1';
        default: return letter;
    }
}

// Hyphens as makeCode sets them.
void addInGroups(Secret& code, std::size_t place, char letter) {
    if (place > 0 && place % codeGroup == 0) {
        code.add('-');
    }
    code.add(letter);
}

}  // namespace

void Secret::Release::operator()(char* bytes) const {
    sodium_free(bytes);
}

Secret::Secret() {
    if (sodium_init() >= 0) {
        m_bytes.reset(static_cast<char*>(sodium_malloc(longest)));
    }
    if (m_bytes == nullptr) {
        std::fputs("secret: no guarded memory\n", stderr);
        std::abort();
    }
}

bool Secret::add(char letter) {
    if (m_length == longest) {
        return false;
    }
    m_bytes[m_length++] = letter;
    return true;
}

void Secret::removeLast() {
    if (m_length > 0) {
        sodium_memzero(&m_bytes[--m_length], 1);
    }
}

void Secret::clear() {
    sodium_memzero(m_bytes.get(), longest);
    m_length = 0;
}

std::string_view Secret::text() const {
    return {m_bytes.get(), m_length};
}

bool Secret::isSame(const Secret& other) const {
    return m_length == other.m_length &&
           sodium_memcmp(m_bytes.get(), other.m_bytes.get(), m_length) == 0;
}

std::optional<PinFault> faultOf(const Secret& pin) {
    const auto digits = pin.text();
    if (!std::all_of(digits.begin(), digits.end(), isDigit)) {
        return PinFault::NotDigits;
    }
    if (digits.size() < fewestDigits) {
        return PinFault::TooShort;
    }
    if (goesBy(digits, 0)) {
        return PinFault::AllEqual;
    }
    if (goesBy(digits, 1) || goesBy(digits, 9)) {
        return PinFault::Sequence;
    }
    return std::nullopt;
}

Secret makeCode() {
    Secret code;
    for (std::size_t place = 0; place < codeLength; ++place) {
        const auto letter = randombytes_uniform(static_cast<std::uint32_t>(codeLetters.size()));
        addInGroups(code, place, codeLetters[letter]);
    }
    return code;
}

Secret codeMeant(const Secret& typed) {
    Secret code;
    std::size_t place = 0;
    for (const char letter : typed.text()) {
        if (letter != '-' && letter != ' ') {
            addInGroups(code, place++, meant(letter));
        }
    }
    return code;
}

}  // namespace station
