// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looks for what leads up to a hash, and at what stands there instead; see heads_doubt.h.
#include "station/heads_doubt.h"

#include "logbook/text.h"

#include <algorithm>
#include <optional>

namespace station {

namespace {

constexpr std::size_t mostKept = 100;
constexpr std::size_t mostShown = 80;    // bytes of what stands for a hash
constexpr std::size_t mostOfHash = 200;  // bytes looked at
constexpr std::size_t mostOfName = 32;
constexpr std::size_t mostOfNumber = 15;
constexpr std::size_t mostBetween = 60;  // bytes of words before the number
constexpr std::size_t mostBlanks = 40;

bool isFigure(char letter) {
    return letter >= '0' && letter <= '9';
}
bool isLetter(char letter) {
    return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z');
}
bool isLetterOrFigure(char letter) {
    return isLetter(letter) || isFigure(letter);
}
bool isOfName(char letter) {
    return isLetterOrFigure(letter) || letter == '-';
}
bool isBlank(char letter) {
    return letter == ' ' || (letter >= '\t' && letter <= '\r');
}
bool isBlankOrQuoting(char letter) {
    return isBlank(letter) || letter == '>';
}
bool isSeparating(char letter) {
    return isBlankOrQuoting(letter) || std::string_view(",;.\"'[(").find(letter) !=
                                           std::string_view::npos;
}
// Also what is read or typed for a figure: the letter O, the letter l.
bool isOfHash(char letter) {
    return isFigure(letter) || std::string_view("abcdefABCDEFoOlI").find(letter) !=
                                   std::string_view::npos;
}

template <class Is>
std::size_t endOf(std::string_view text, std::size_t place, std::size_t most, Is is) {
    const auto end = std::min(text.size(), place + std::min(most, text.size()));
    while (place < end && is(text[place])) {
        ++place;
    }
    return place;
}

bool isMostlyOfHash(std::string_view word) {
    const auto fitting = static_cast<std::size_t>(std::ranges::count_if(word, isOfHash));
    return fitting * 4 >= word.size() * 3;
}

// Beyond what people write otherwise.
bool isAsLong(std::string_view word) {
    return word.size() >= 60 || (word.size() >= 32 && isMostlyOfHash(word));
}

bool isPartOfHash(std::string_view word) {
    const bool hasBoth =
        std::ranges::any_of(word, isFigure) && std::ranges::any_of(word, isLetter);
    return word.size() >= 8 && (hasBoth || word.size() >= 16) && isMostlyOfHash(word);
}

bool isNumber(std::string_view word) {
    return !word.empty() && std::ranges::all_of(word, isFigure);
}

std::string cut(std::string_view seen) {
    if (seen.size() <= mostShown) {
        return std::string(seen);
    }
    auto end = mostShown;
    while (end > 0 && (static_cast<unsigned char>(seen[end]) & 0xC0) == 0x80) {
        --end;  // within a letter of several bytes
    }
    return std::string(seen.substr(0, end)) + "\u2026";
}

struct Candidate {
    std::string_view name, number, seen;
    std::size_t place = 0;  // of what stands where the hash should
    bool isMeant = false;   // as a head, whatever stands there
};

// What begins with the quotation mark at `place` as "icu-1":[412," does.
std::optional<Candidate> inJson(std::string_view text, std::size_t place) {
    const auto skipBlanks = [&](std::size_t from) {
        return endOf(text, from, mostBlanks, isBlank);
    };
    const auto isAt = [&](std::size_t at, char letter) {
        return at < text.size() && text[at] == letter;
    };
    Candidate candidate;
    const auto nameEnd = endOf(text, place + 1, mostOfName + 1, isOfName);
    candidate.name = text.substr(place + 1, nameEnd - place - 1);
    if (candidate.name.empty() || !isAt(nameEnd, '"')) {
        return std::nullopt;
    }
    const auto colon = skipBlanks(nameEnd + 1);
    const auto bracket = isAt(colon, ':') ? skipBlanks(colon + 1) : text.size();
    if (!isAt(bracket, '[')) {
        return std::nullopt;
    }
    const auto number = skipBlanks(bracket + 1);
    const auto numberEnd = endOf(text, number, mostOfNumber, isLetterOrFigure);
    candidate.number = text.substr(number, numberEnd - number);
    candidate.isMeant = logbook::isStationName(candidate.name) && isNumber(candidate.number);
    const auto comma = skipBlanks(numberEnd);
    candidate.place = isAt(comma, ',') ? skipBlanks(comma + 1) : comma;
    if (candidate.place == text.size()) {
        return candidate;
    }
    if (!isAt(comma, ',') || candidate.number.empty()) {
        return std::nullopt;
    }
    if (!isAt(candidate.place, '"')) {
        candidate.isMeant = false;
        const auto end = endOf(text, candidate.place, mostOfHash, isLetterOrFigure);
        candidate.seen = text.substr(candidate.place, end - candidate.place);
        return candidate;
    }
    ++candidate.place;
    const auto end = endOf(text, candidate.place, mostOfHash,
                           [](char letter) { return letter != '"' && letter != '\n'; });
    candidate.seen = text.substr(candidate.place, end - candidate.place);
    return candidate;
}

bool isOneOf(const std::vector<std::string>& phrases, std::string_view between) {
    const auto begin = std::min(between.find_first_not_of(' '), between.size());
    const auto end = between.find_last_not_of(' ') + 1;
    return begin < end && std::ranges::find(phrases, between.substr(begin, end - begin)) !=
                              phrases.end();
}

// The name that ends before `colon`, if nothing that could be of it stands before that.
std::string_view nameBefore(std::string_view text, std::size_t colon) {
    auto begin = colon;
    while (begin > 0 && colon - begin <= mostOfName && isOfName(text[begin - 1])) {
        --begin;
    }
    const auto name = text.substr(begin, colon - begin);
    const bool isAlone = begin == 0 || isBlankOrQuoting(text[begin - 1]) ||
                         std::string_view("\"'([{,*").find(text[begin - 1]) !=
                             std::string_view::npos;
    return name.size() <= mostOfName && isAlone ? name : std::string_view();
}

// What stands behind the colon at `colon` as icu-1: up to entry 412, does.
std::optional<Candidate> inLine(std::string_view text, std::size_t colon,
                                const std::vector<std::string>& phrases) {
    Candidate candidate;
    candidate.name = nameBefore(text, colon);
    const auto figure = endOf(text, colon + 1, mostBetween + 1, [](char letter) {
        return letter != ':' && letter != '\n' && !isFigure(letter);
    });
    if (candidate.name.empty() || figure == text.size() || !isFigure(text[figure])) {
        return std::nullopt;
    }
    auto number = figure;
    while (isLetterOrFigure(text[number - 1])) {
        --number;  // no further than the colon
    }
    const auto numberEnd = endOf(text, number, mostOfNumber + 1, isLetterOrFigure);
    candidate.number = text.substr(number, numberEnd - number);
    if (candidate.number.size() > mostOfNumber) {
        return std::nullopt;
    }
    candidate.place = endOf(text, numberEnd, mostBlanks, isSeparating);
    const auto end = endOf(text, candidate.place, mostOfHash, isLetterOrFigure);
    candidate.seen = text.substr(candidate.place, end - candidate.place);
    const auto between = text.substr(colon + 1, number - colon - 1);
    const auto parting = text.substr(numberEnd, candidate.place - numberEnd);
    const bool isInForm = logbook::isStationName(candidate.name) && isNumber(candidate.number) &&
                          between.starts_with(' ') && parting.size() > 1 && parting[0] == ',' &&
                          std::ranges::all_of(parting.substr(1), isBlankOrQuoting);
    candidate.isMeant = isOneOf(phrases, between) || (isInForm && isPartOfHash(candidate.seen));
    return candidate;
}

}  // namespace

DoubtfulHeads doubtfulHeads(std::string_view text, const HeadsInText& found,
                            const std::vector<std::string>& phrases) {
    DoubtfulHeads doubtful;
    for (std::size_t place = text.find_first_of("\":"); place != std::string_view::npos;
         place = text.find_first_of("\":", place + 1)) {
        const auto candidate =
            text[place] == '"' ? inJson(text, place) : inLine(text, place, phrases);
        if (!candidate || !(candidate->isMeant || isAsLong(candidate->seen)) ||
            std::ranges::binary_search(found.places, candidate->place)) {
            continue;
        }
        if (++doubtful.count <= mostKept) {
            doubtful.first.push_back(
                {std::string(candidate->name) + "/" + std::string(candidate->number),
                 cut(candidate->seen)});
        }
    }
    return doubtful;
}

}  // namespace station
