// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The hash of a secret, wiped when it is no longer needed. For this folder only.
#pragma once

#include <array>
#include <sodium.h>
#include <string_view>

namespace store {

// Argon2id by libsodium, with its limits for interactive use (64 MiB, 2 passes): a tenth of a
// second on a desk computer of the year 2015 and on, so that a sign-in is not waited for and old
// computers have the memory. The next limits up take seven times as long and 256 MiB, and would
// not save a PIN of six digits from somebody who has the file: docs/internals/security.md.
class SecretHash {
public:
    SecretHash() = default;
    SecretHash(const SecretHash&) = delete;
    SecretHash& operator=(const SecretHash&) = delete;
    ~SecretHash() { sodium_memzero(m_text.data(), m_text.size()); }

    // False if there is no memory for it.
    [[nodiscard]] bool make(std::string_view secret) {
        return crypto_pwhash_str(m_text.data(), secret.data(), secret.size(),
                                 crypto_pwhash_OPSLIMIT_INTERACTIVE,
                                 crypto_pwhash_MEMLIMIT_INTERACTIVE) == 0;
    }

    // From its text; one that is too long matches nothing.
    void take(std::string_view text) {
        m_text.fill('\0');
        if (text.size() < m_text.size()) {
            text.copy(m_text.data(), text.size());
        }
    }

    [[nodiscard]] bool matches(std::string_view secret) const {
        return crypto_pwhash_str_verify(m_text.data(), secret.data(), secret.size()) == 0;
    }

    [[nodiscard]] const char* text() const { return m_text.data(); }

    [[nodiscard]] bool isSame(const SecretHash& other) const {
        return sodium_memcmp(m_text.data(), other.m_text.data(), m_text.size()) == 0;
    }

private:
    std::array<char, crypto_pwhash_STRBYTES> m_text{};
};

}  // namespace store
