// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Moving over canonical JSON; see canonical_cursor.h.
#include "logbook/canonical_cursor.h"

#include "logbook/digits.h"
#include "logbook/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <functional>

namespace logbook {

namespace {

// So many figures are always those of the shortest text of the number that they are read as.
constexpr std::size_t mostFigures = 15;
constexpr std::size_t mostDecimals = 6;  // smaller numbers are written with an exponent

// What ends a run of plain ASCII within a text: quote, backslash, control, beyond ASCII.
constexpr auto endsRun = [] {
    std::array<bool, 256> ends{};
    for (std::size_t character = 0; character < ends.size(); ++character) {
        ends[character] = character < 0x20 || character == '"' || character == '\\' ||
                          character >= 0x80;
    }
    return ends;
}();

// An instant as a text has it, to the second or to the millisecond.
constexpr std::size_t secondsLength = 20;
constexpr std::size_t millisecondsLength = 24;

}  // namespace

bool CanonicalCursor::take(std::string_view text) {
    if (!m_rest.starts_with(text)) {
        return false;
    }
    m_rest.remove_prefix(text.size());
    return true;
}

bool CanonicalCursor::takeText(std::string_view& text) {
    if (!take('"')) {
        return false;
    }
    bool plain = true;
    std::size_t length = 0;
    for (; length < m_rest.size(); ++length) {
        const auto character = static_cast<unsigned char>(m_rest[length]);
        if (!endsRun[character]) {
            continue;
        }
        if (character < 0x80) {
            break;
        }
        plain = false;
    }
    text = m_rest.substr(0, length);
    m_rest.remove_prefix(length);
    return take('"') && (plain || isUtf8(text));
}

std::size_t CanonicalCursor::figures() const {
    const std::size_t sign = isAt('-') ? 1 : 0;
    std::size_t length = sign;
    while (length < m_rest.size() && isDigit(m_rest[length])) {
        ++length;
    }
    // No figure, or a zero before another.
    const bool is = length > sign && (m_rest[sign] != '0' || length == sign + 1);
    return is ? length : 0;
}

bool CanonicalCursor::takeNumber(double& number) {
    const std::size_t whole = figures();
    std::size_t length = whole;
    if (whole > 0 && whole < m_rest.size() && m_rest[whole] == '.') {
        ++length;
        while (length < m_rest.size() && isDigit(m_rest[length])) {
            ++length;
        }
        const std::size_t decimals = length - whole - 1;
        if (decimals == 0 || decimals > mostDecimals || m_rest[length - 1] == '0') {
            return false;
        }
    }
    const std::string_view literal = m_rest.substr(0, length);
    // Minus zero, and what goes on with an exponent, are left to the thorough reader.
    if (whole == 0 || length > mostFigures || literal == "-0" ||
        (length < m_rest.size() && (m_rest[length] == 'e' || m_rest[length] == 'E'))) {
        return false;
    }
    const auto read = std::from_chars(literal.data(), literal.data() + length, number);
    m_rest.remove_prefix(length);
    return read.ec == std::errc();
}

bool CanonicalCursor::takeWhole(std::int64_t& number) {
    const std::size_t length = figures();
    if (length == 0 || length > mostFigures || isAt('-')) {
        return false;
    }
    std::from_chars(m_rest.data(), m_rest.data() + length, number);
    m_rest.remove_prefix(length);
    return !isAt('.') && !isAt('e') && !isAt('E');
}

bool CanonicalCursor::takeFlag(bool& flag) {
    flag = isAt('t');
    return flag ? take("true") : take("false");
}

bool CanonicalCursor::takeText(std::string& text) {
    std::string_view taken;
    if (!takeText(taken)) {
        return false;
    }
    text.assign(taken);
    return true;
}

bool CanonicalCursor::takeName(std::string& name) {
    std::string_view taken;
    if (!takeText(taken) || !isName(taken)) {
        return false;
    }
    name.assign(taken);
    return true;
}

bool CanonicalCursor::takeKey(std::string& key) {
    std::string_view taken;
    if (!takeText(taken) || !isKey(taken)) {
        return false;
    }
    key.assign(taken);
    return true;
}

bool CanonicalCursor::takeInstant(Instant& instant) {
    if (!take('"')) {
        return false;
    }
    const std::size_t length = m_rest.size() > secondsLength && m_rest[secondsLength] == '"'
                                   ? secondsLength
                                   : millisecondsLength;
    const auto parsed = parseInstant(m_rest.substr(0, length));
    if (!parsed || (length == millisecondsLength && parsed->ms % 1000 == 0)) {
        return false;
    }
    instant = *parsed;
    m_rest.remove_prefix(length);
    return take('"');
}

bool CanonicalCursor::takeKeySet(std::vector<std::string>& keys) {
    if (!take('[')) {
        return false;
    }
    std::size_t count = 0;
    while (!isAt(']')) {
        if (count > 0 && !take(',')) {
            return false;
        }
        if (count == keys.size()) {
            keys.emplace_back();
        }
        if (!takeKey(keys[count++])) {
            return false;
        }
    }
    keys.resize(count);
    if (std::ranges::adjacent_find(keys, std::ranges::greater_equal()) != keys.end()) {
        std::sort(keys.begin(), keys.end());
        keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
    }
    return take(']');
}

bool CanonicalMembers::nextOfAny(std::string_view& name) {
    CanonicalCursor ahead = m_cursor;
    if (!m_isObject || (!m_first && !ahead.take(',')) || !ahead.takeText(name) ||
        !ahead.take(':') || (!m_first && name <= m_last)) {
        return false;
    }
    m_cursor = ahead;
    m_first = false;
    m_last = name;
    return true;
}

}  // namespace logbook
