// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Numbers and texts as bytes and back: short, and the same value always the same bytes. Knows no
// shape of the engine; for state_bytes.cpp only.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

namespace rules {

// A text stands where it is first used, and is a number from there on.
class BytesWriter {
public:
    // Seven bits a byte, the lowest first; the top bit says that more follow.
    void number(std::uint64_t value) {
        while (value >= 0x80U) {
            m_bytes += static_cast<char>(value | 0x80U);
            value >>= 7U;
        }
        m_bytes += static_cast<char>(value);
    }
    // Negative ones between the others, so that small ones are short.
    void signedNumber(std::int64_t value) {
        const auto bits = static_cast<std::uint64_t>(value);
        number((bits << 1U) ^ (value < 0 ? ~std::uint64_t{0} : 0));
    }
    void flag(bool value) { m_bytes += value ? '\1' : '\0'; }
    // `value` must stay where it is until all is written.
    void text(std::string_view value) {
        const auto [known, isNew] = m_texts.try_emplace(value, m_texts.size());
        number(known->second);
        if (!isNew) return;
        number(value.size());
        m_bytes += value;
    }
    void literal(std::string_view value) { m_bytes += value; }

    [[nodiscard]] std::string take() { return std::move(m_bytes); }

private:
    std::string m_bytes;
    std::unordered_map<std::string_view, std::uint64_t> m_texts;
};

// Reads what a BytesWriter wrote. Where the bytes are anything else it fails, and whatever is read
// after that is nothing: ask once, at the end, whether it has.
class BytesReader {
public:
    explicit BytesReader(std::string_view bytes) : m_rest(bytes) {}

    [[nodiscard]] std::uint64_t number();
    [[nodiscard]] std::int64_t signedNumber();
    [[nodiscard]] bool flag();
    // Well-formed UTF-8. Valid as long as the bytes are.
    [[nodiscard]] std::string_view text();
    void literal(std::string_view wanted);

    void fail() {
        m_failed = true;
        m_rest = {};
    }
    void require(bool holds) {
        if (!holds) fail();
    }
    [[nodiscard]] bool failed() const { return m_failed; }
    [[nodiscard]] bool isAtEnd() const { return m_rest.empty(); }

private:
    std::string_view m_rest;
    std::vector<std::string_view> m_texts;
    bool m_failed = false;
};

}  // namespace rules
