// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A place in canonical JSON that moves over what is expected there, and over nothing else: no white
// space, no escape, members in the order of their names. Knows no record. For the reader of
// canonical records only.
#pragma once

#include "logbook/day.h"
#include "logbook/instant.h"

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace logbook {

// Every call tells whether it found what it names there; where it did not, the place is not to be
// used any more. A text that is taken points into what is read.
class CanonicalCursor {
public:
    explicit CanonicalCursor(std::string_view content) : m_rest(content) {}

    [[nodiscard]] bool atEnd() const { return m_rest.empty(); }
    [[nodiscard]] bool isAt(char character) const {
        return !m_rest.empty() && m_rest.front() == character;
    }
    [[nodiscard]] bool take(char character) {
        if (!isAt(character)) return false;
        m_rest.remove_prefix(1);
        return true;
    }
    [[nodiscard]] bool take(std::string_view text);
    // Its length is known when this is compiled, so that it is compared as a few words.
    template <std::size_t size>
    [[nodiscard]] bool take(const char (&literal)[size]) {
        constexpr std::size_t length = size - 1;
        if (m_rest.size() < length || std::memcmp(m_rest.data(), literal, length) != 0) {
            return false;
        }
        m_rest.remove_prefix(length);
        return true;
    }

    [[nodiscard]] bool takeText(std::string_view& text);  // valid UTF-8 without an escape
    [[nodiscard]] bool takeNumber(double& number);        // of at most 15 figures, no exponent
    [[nodiscard]] bool takeWhole(std::int64_t& number);   // the same, 0 or more
    [[nodiscard]] bool takeFlag(bool& flag);

    // The same for texts of a certain sort.
    [[nodiscard]] bool takeText(std::string& text);
    [[nodiscard]] bool takeName(std::string& name);
    [[nodiscard]] bool takeKey(std::string& key);
    [[nodiscard]] bool takeInstant(Instant& instant);  // in its shortest form
    [[nodiscard]] bool takeKeySet(std::vector<std::string>& keys);  // sorted, no twins

    // How long the figures at the front are, the sign included.
    [[nodiscard]] std::size_t figures() const;

private:
    std::string_view m_rest;
};

// The members of the object that begins at the cursor, asked for in the order of their names.
class CanonicalMembers {
public:
    // `isObject` tells whether there is one.
    explicit CanonicalMembers(CanonicalCursor& cursor)
        : m_cursor(cursor), m_isObject(cursor.take('{')) {}

    [[nodiscard]] bool isObject() const { return m_isObject; }

    // Moves to the value of that member if it is the next.
    template <std::size_t size>
    [[nodiscard]] bool next(const char (&name)[size]) {
        CanonicalCursor ahead = m_cursor;
        if (!m_isObject || (!m_first && !ahead.take(',')) || !ahead.take('"') ||
            !ahead.take(name) || !ahead.take("\":")) {
            return false;
        }
        m_cursor = ahead;
        m_first = false;
        m_last = {name, size - 1};
        return true;
    }
    // The same for whatever name comes next.
    [[nodiscard]] bool nextOfAny(std::string_view& name);
    // Nothing is left.
    [[nodiscard]] bool end() { return m_isObject && m_cursor.take('}'); }

private:
    CanonicalCursor& m_cursor;
    bool m_isObject;
    bool m_first = true;
    std::string_view m_last;
};

}  // namespace logbook
