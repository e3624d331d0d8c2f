// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looks for hashes, and reads backwards from each; see heads_text.h.
#include "station/heads_text.h"

#include "logbook/text.h"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>

namespace station {

namespace {

constexpr std::size_t hashFigures = 64;
constexpr std::size_t mostFigures = 15;   // of a number
constexpr std::size_t mostLetters = 32;   // of a station's name
constexpr std::size_t mostBetween = 60;   // bytes of words before the number

bool isFigure(char letter) {
    return letter >= '0' && letter <= '9';
}
bool isHashFigure(char letter) {
    return isFigure(letter) || (letter >= 'a' && letter <= 'f');
}
bool isOfName(char letter) {
    return isFigure(letter) || (letter >= 'a' && letter <= 'z') || letter == '-';
}
bool isBlank(char letter) {
    return letter == ' ' || (letter >= '\t' && letter <= '\r');
}

// Takes off the end of what stands before a hash.
class Before {
public:
    explicit Before(std::string_view text) : m_text(text) {}

    bool take(char letter) {
        if (!m_text.ends_with(letter)) {
            return false;
        }
        m_text.remove_suffix(1);
        return true;
    }
    // As many as there are, no more than `most`.
    template <class Is>
    std::string_view takeAll(Is is, std::size_t most) {
        std::size_t count = 0;
        while (count < std::min(most, m_text.size()) && is(m_text[m_text.size() - 1 - count])) {
            ++count;
        }
        const auto taken = m_text.substr(m_text.size() - count);
        m_text.remove_suffix(count);
        return taken;
    }
    bool takeBlanks() { return !takeAll(isBlank, m_text.size()).empty(); }
    // Of a record.
    std::optional<std::int64_t> takeNumber() {
        const auto figures = takeAll(isFigure, mostFigures);
        std::int64_t number = 0;
        for (const char figure : figures) {
            number = 10 * number + (figure - '0');
        }
        return number >= 1 ? std::optional(number) : std::nullopt;
    }

private:
    std::string_view m_text;
};

struct Named {
    std::string station;
    std::int64_t seq = 0;
};

// "icu-1":[412," from its end.
std::optional<Named> namedInJson(Before before) {
    if (!before.take('"')) {
        return std::nullopt;
    }
    before.takeBlanks();
    if (!before.take(',')) {
        return std::nullopt;
    }
    before.takeBlanks();
    const auto seq = before.takeNumber();
    before.takeBlanks();
    if (!seq || !before.take('[')) {
        return std::nullopt;
    }
    before.takeBlanks();
    if (!before.take(':')) {
        return std::nullopt;
    }
    before.takeBlanks();
    if (!before.take('"')) {
        return std::nullopt;
    }
    const auto station = before.takeAll(isOfName, mostLetters);
    if (!logbook::isStationName(station) || !before.take('"')) {
        return std::nullopt;
    }
    return Named{std::string(station), *seq};
}

// icu-1: up to entry 412, from its end.
std::optional<Named> namedInLine(Before before) {
    if (!before.takeBlanks() || !before.take(',')) {
        return std::nullopt;
    }
    const auto seq = before.takeNumber();
    const auto between = before.takeAll(
        [](char letter) { return letter != ':' && letter != '\n' && !isFigure(letter); },
        mostBetween);
    if (!seq || !between.starts_with(' ') || !before.take(':')) {
        return std::nullopt;
    }
    const auto station = before.takeAll(isOfName, mostLetters);
    return logbook::isStationName(station) ? std::optional(Named{std::string(station), *seq})
                                           : std::nullopt;
}

}  // namespace

store::Heads headsInText(std::string_view text) {
    store::Heads heads;
    std::size_t seen = 0;  // nothing before it is looked at again
    for (std::size_t place = 0; place < text.size();) {
        const std::size_t begin = place;
        while (place < text.size() && isHashFigure(text[place])) {
            ++place;
        }
        if (place - begin == hashFigures) {
            const Before before(text.substr(seen, begin - seen));
            const bool isQuoted = place < text.size() && text[place] == '"';
            auto named = isQuoted ? namedInJson(before) : std::nullopt;
            named = named ? named : namedInLine(before);
            const auto hash = store::hashFromHex(text.substr(begin, hashFigures));
            if (named && hash) {
                heads[named->station] = {named->seq, *hash};
            }
            seen = place;
        }
        place = std::max(place, begin + 1);
    }
    return heads;
}

}  // namespace station
