// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looks for hashes, and reads backwards from each; see heads_text.h.
#include "station/heads_text.h"

#include "logbook/text.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

namespace station {

namespace {

constexpr std::size_t hashFigures = 64;
constexpr std::size_t mostFigures = 15;   // of a number
constexpr std::size_t mostLetters = 32;   // of a station's name
constexpr std::size_t mostBetween = 60;   // bytes of words before the number
constexpr std::size_t fewestOfLine = 8;   // figures of a hash, before the last of its lines
constexpr std::size_t mostIndent = 40;    // bytes between two parts of a hash

bool isFigure(char letter) {
    return letter >= '0' && letter <= '9';
}
bool isHashFigure(char letter) {
    return isFigure(letter) || (letter >= 'a' && letter <= 'f') || (letter >= 'A' && letter <= 'F');
}
char inSmall(char letter) {
    return letter >= 'A' && letter <= 'F' ? static_cast<char>(letter - 'A' + 'a') : letter;
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

// The figures that begin at a place, over as many ends of lines as there are among them.
struct Figures {
    std::string figures;
    std::size_t end = 0;
};

std::size_t endOfRun(std::string_view text, std::size_t place) {
    while (place < text.size() && isHashFigure(text[place])) {
        ++place;
    }
    return place;
}

// Where the next line goes on, or the same place if no line ends there.
std::size_t overLineEnd(std::string_view text, std::size_t place) {
    const auto goesOn =
        std::min(text.find_first_not_of(" \t\r\n>", place), text.size());
    const bool isNear = goesOn - place <= mostIndent;
    return isNear && text.substr(place, goesOn - place).find('\n') != std::string_view::npos
               ? goesOn
               : place;
}

Figures figuresAt(std::string_view text, std::size_t begin) {
    Figures found{{}, endOfRun(text, begin)};
    const auto first = found.end - begin;
    if (first < fewestOfLine || first > hashFigures) {
        return found;
    }
    const auto firstEnd = found.end;
    found.figures = text.substr(begin, first);
    while (found.figures.size() < hashFigures) {
        const auto next = overLineEnd(text.substr(0, found.end + mostIndent + 1), found.end);
        const auto end = endOfRun(text, next);
        const auto lacking = hashFigures - found.figures.size();
        const bool isPart = end - next == lacking ||
                            (end - next >= fewestOfLine && end - next < lacking);
        if (next == found.end || !isPart) {
            return {{}, firstEnd};
        }
        found.figures += text.substr(next, end - next);
        found.end = end;
    }
    std::ranges::transform(found.figures, found.figures.begin(), inSmall);
    return found;
}

// Each different head of a station in another of the heads returned.
class Gathered {
public:
    void add(const Named& named, const store::Hash& hash) {
        auto& station = m_seen[named.station];
        if (!station.emplace(named.seq, hash).second) {
            return;
        }
        if (m_heads.size() < station.size()) {
            m_heads.emplace_back();
        }
        m_heads[station.size() - 1][named.station] = {named.seq, hash};
    }
    [[nodiscard]] std::vector<store::Heads> heads() && { return std::move(m_heads); }

private:
    std::map<std::string, std::set<std::pair<std::int64_t, store::Hash>>> m_seen;
    std::vector<store::Heads> m_heads;
};

}  // namespace

HeadsInText headsInText(std::string_view text) {
    Gathered gathered;
    std::vector<std::size_t> places;
    std::size_t seen = 0;  // nothing before it is looked at again
    for (std::size_t place = 0; place < text.size();) {
        const std::size_t begin = place;
        const auto found = figuresAt(text, begin);
        place = std::max(found.end, begin + 1);
        if (found.figures.size() != hashFigures) {
            continue;
        }
        const Before before(text.substr(seen, begin - seen));
        const bool isQuoted = place < text.size() && text[place] == '"';
        auto named = isQuoted ? namedInJson(before) : std::nullopt;
        named = named ? named : namedInLine(before);
        const auto hash = store::hashFromHex(found.figures);
        if (named && hash) {
            gathered.add(*named, *hash);
            places.push_back(begin);
        }
        seen = place;
    }
    return {std::move(gathered).heads(), std::move(places)};
}

}  // namespace station
