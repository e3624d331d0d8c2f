// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// SHA-256 by libsodium, and hashes as text.
#include "store/hash.h"

#include <sodium.h>

namespace store {

namespace {

static_assert(std::tuple_size_v<Hash> == crypto_hash_sha256_BYTES);

const unsigned char* bytesOf(std::string_view text) {
    return reinterpret_cast<const unsigned char*>(text.data());
}

std::optional<unsigned> figure(char character) {
    if (character >= '0' && character <= '9') {
        return static_cast<unsigned>(character - '0');
    }
    if (character >= 'a' && character <= 'f') {
        return static_cast<unsigned>(character - 'a') + 10U;
    }
    return std::nullopt;
}

}  // namespace

Hash sha256(std::string_view bytes) {
    Hash hash{};
    crypto_hash_sha256(hash.data(), bytesOf(bytes), bytes.size());
    return hash;
}

Hash chainHash(const Hash& previous, std::string_view content) {
    crypto_hash_sha256_state state;
    crypto_hash_sha256_init(&state);
    crypto_hash_sha256_update(&state, previous.data(), previous.size());
    crypto_hash_sha256_update(&state, bytesOf(content), content.size());
    Hash hash{};
    crypto_hash_sha256_final(&state, hash.data());
    return hash;
}

std::string toHex(const Hash& hash) {
    constexpr std::string_view figures = "0123456789abcdef";
    std::string text;
    text.reserve(2 * hash.size());
    for (const std::uint8_t byte : hash) {
        text += figures[byte >> 4U];
        text += figures[byte & 15U];
    }
    return text;
}

std::optional<Hash> hashFromHex(std::string_view text) {
    Hash hash{};
    if (text.size() != 2 * hash.size()) {
        return std::nullopt;
    }
    for (std::size_t i = 0; i < hash.size(); ++i) {
        const auto high = figure(text[2 * i]);
        const auto low = figure(text[2 * i + 1]);
        if (!high || !low) {
            return std::nullopt;
        }
        hash[i] = static_cast<std::uint8_t>(*high << 4U | *low);
    }
    return hash;
}

}  // namespace store
