// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Patterns by which a text looks as if it named a patient; see privacy.h.
#include "station/privacy.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <regex>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using Code = PatientTrace::Code;
using Traces = std::vector<PatientTrace>;

// Longer texts are read up to here: a regular expression must not be fed without bounds.
constexpr std::size_t mostRead = 4'000;

std::string escaped(std::string_view word) {
    std::string text;
    for (const char letter : word) {
        if (std::string_view(".*+?^${}()|[]\\/").find(letter) != std::string_view::npos) {
            text += '\\';
        }
        text += letter;
    }
    return text;
}

// "mrn, dob" as "(?:mrn|dob)", and after it no further letter: one of more bytes is none to a
// regular expression.
std::string anyWordOf(const words::Words& words, std::string_view list) {
    std::string all;
    for (const auto& word : words.listed(list)) {
        all += (all.empty() ? "(?:" : "|") + escaped(word);
    }
    return all + ")(?![\\w\\x80-\\xFF])";
}

struct Patterns {
    std::regex marker, title, person, age, names, bed, date, moment, number, numbered;

    explicit Patterns(const words::Words& words)
        : marker("\\b" + anyWordOf(words, "privacy.markers") + "[ .:#]*\\S+", std::regex::icase),
          title("\\b" + anyWordOf(words, "privacy.titles") + "\\.? +[A-Z\\xC3][^ ,;.]+"),
          person("\\b" + anyWordOf(words, "privacy.persons") +
                 " +(?:[A-Z]\\. *)?[A-Z\\xC3][a-z\\x80-\\xFF'-]+"
                 "(?: +[A-Z\\xC3][a-z\\x80-\\xFF'-]+)+"),
          age("\\b\\d{1,3}[ -]?" + anyWordOf(words, "privacy.ages"), std::regex::icase),
          names("\\b[A-Z][a-z\\x80-\\xFF'-]+,? +[A-Z][a-z\\x80-\\xFF'-]+"),
          bed("\\b[A-Z][a-z\\x80-\\xFF'-]+,? +(?!" + anyWordOf(words, "privacy.places") +
              ")[A-Z][a-z\\x80-\\xFF'-]+[ ,:(-]+(?:in |en |at )?" +
              anyWordOf(words, "privacy.beds") + "[ .:#]*\\d+"),
          date("\\b(?:\\d{4}-\\d{1,2}-\\d{1,2}|\\d{1,2}[./-]\\d{1,2}[./-](?:\\d{4}|\\d{2}))\\b"),
          moment("\\b(?:\\d{4}-\\d{1,2}-\\d{1,2}|\\d{1,2}[./-]\\d{1,2}[./-](?:\\d{4}|\\d{2})|"
                 "\\d{1,2}:\\d{2}(?::\\d{2})?)(?![\\dA-Za-z])"),
          number("\\d(?:[ -]?\\d){5,}"),
          numbered("\\b" + anyWordOf(words, "privacy.numbered") + "(?: +" +
                       anyWordOf(words, "privacy.number_words") + ")?[ .:#]*$",
                   std::regex::icase) {}
};

// Making them takes longer than a look at a short text, and lists hold many.
const Patterns& patternsOf(const words::Words& words) {
    thread_local std::map<std::string, Patterns> known;
    return known.try_emplace(words.language(), words).first->second;
}

std::optional<PatientTrace> found(const std::string& text, const std::regex& pattern, Code code) {
    std::smatch match;
    if (!std::regex_search(text, match, pattern)) {
        return std::nullopt;
    }
    return PatientTrace{code, match.str()};
}

bool joins(char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    return std::isalnum(byte) != 0 || byte >= 0x80 || letter == '-' || letter == '_' ||
           letter == '.' || letter == '/' || letter == ':';
}

// The text with commas where a date or a time of day stands: beside one a number is one all the
// same.
std::string withoutMoments(const std::string& text, const Patterns& patterns) {
    auto plain = text;
    for (auto match = std::sregex_iterator(text.begin(), text.end(), patterns.moment);
         match != std::sregex_iterator(); ++match) {
        plain.replace(static_cast<std::size_t>(match->position()),
                      static_cast<std::size_t>(match->length()),
                      static_cast<std::size_t>(match->length()), ',');
    }
    return plain;
}

// Digits by themselves: not those of "KB-0142007", "2026-03-02", "14:20:05" or "lot 4471203".
// Place and length, in order.
std::vector<std::pair<std::size_t, std::size_t>> numbersIn(const std::string& whole,
                                                           const Patterns& patterns) {
    const auto text = withoutMoments(whole, patterns);
    std::vector<std::pair<std::size_t, std::size_t>> numbers;
    for (auto match = std::sregex_iterator(text.begin(), text.end(), patterns.number);
         match != std::sregex_iterator(); ++match) {
        const auto from = static_cast<std::size_t>(match->position());
        const auto to = from + static_cast<std::size_t>(match->length());
        const bool alone = (from == 0 || !joins(text[from - 1])) &&
                           (to == text.size() || !joins(text[to]) || text[to] == '.');
        const auto before = text.substr(from > 32 ? from - 32 : 0, std::min<std::size_t>(from, 32));
        if (alone && !std::regex_search(before, patterns.numbered)) {
            numbers.emplace_back(from, to - from);
        }
    }
    return numbers;
}

std::optional<PatientTrace> numberIn(const std::string& text, const Patterns& patterns) {
    const auto numbers = numbersIn(text, patterns);
    if (numbers.empty()) {
        return std::nullopt;
    }
    return PatientTrace{Code::Number, text.substr(numbers.front().first, numbers.front().second)};
}

// The text without what looks as if it named a patient, and what comes after what is read.
std::string withheld(std::string_view whole, const Patterns& patterns, const std::string& mark) {
    std::string text(whole.substr(0, mostRead));
    if (std::regex_search(text, patterns.names) && std::regex_search(text, patterns.date)) {
        text = std::regex_replace(text, patterns.names, mark);
        text = std::regex_replace(text, patterns.date, mark);
    }
    for (const auto* pattern :
         {&patterns.marker, &patterns.title, &patterns.person, &patterns.age, &patterns.bed}) {
        text = std::regex_replace(text, *pattern, mark);
    }
    auto numbers = numbersIn(text, patterns);
    for (auto number = numbers.rbegin(); number != numbers.rend(); ++number) {
        text.replace(number->first, number->second, mark);
    }
    return text;
}

Traces tracesIn(std::string_view text, const Patterns& patterns, TextSort sort) {
    const std::string read(text.substr(0, mostRead));
    Traces traces;
    const auto add = [&traces](std::optional<PatientTrace> trace) {
        const bool isTold = trace && std::ranges::any_of(traces, [&](const auto& other) {
            return other.text.find(trace->text) != std::string::npos;
        });
        if (trace && !isTold) {
            traces.push_back(*std::move(trace));
        }
    };
    add(found(read, patterns.marker, Code::Marker));
    add(found(read, patterns.person, Code::Title));
    add(found(read, patterns.age, Code::Marker));
    if (sort == TextSort::Free) {
        add(found(read, patterns.title, Code::Title));
        if (traces.empty()) {
            add(found(read, patterns.bed, Code::NameBed));
        }
    }
    const auto names = found(read, patterns.names, Code::NameDate);
    const auto date = found(read, patterns.date, Code::NameDate);
    if (names && date) {
        traces.push_back({Code::NameDate, names->text + " … " + date->text});
    }
    if (sort == TextSort::Free) {
        add(numberIn(read, patterns));
    }
    return traces;
}

bool isFreeText(std::string_view field) {
    static constexpr std::array<std::string_view, 5> fields{"reason", "text", "title", "label",
                                                            "location"};
    return std::ranges::find(fields, field) != fields.end();
}

// What no patient stands in: the text of a rulebook, with the names and dates of its authors.
bool isLeftOut(std::string_view kind, std::string_view field) {
    return kind == "adopt" && field == "text";
}

// The texts at every level of a body, each with the field in which it stands.
template <class Visit>
void eachText(std::string_view field, json::Value& value, const Visit& visit) {
    if (value.string() != nullptr) {
        visit(field, value);
    } else if (auto* object = value.object()) {
        for (auto& [name, inner] : *object) {
            eachText(name, inner, visit);
        }
    } else if (auto* array = value.array()) {
        for (auto& inner : *array) {
            eachText(field, inner, visit);
        }
    }
}

}  // namespace

Traces patientTraces(std::string_view text, const words::Words& words, TextSort sort) {
    return tracesIn(text, patternsOf(words), sort);
}

Traces patientTraces(std::string_view kind, const json::Object& body, const words::Words& words) {
    const auto& patterns = patternsOf(words);
    Traces traces;
    for (const auto& [name, value] : body) {
        if (isLeftOut(kind, name)) {
            continue;
        }
        auto copy = value;
        eachText(name, copy, [&](std::string_view field, const json::Value& text) {
            const auto more = tracesIn(*text.string(), patterns,
                                       isFreeText(field) ? TextSort::Free : TextSort::Name);
            traces.insert(traces.end(), more.begin(), more.end());
        });
    }
    return traces;
}

void withholdTraces(std::string_view kind, json::Object& body, const words::Words& words) {
    const auto& patterns = patternsOf(words);
    if (patientTraces(kind, body, words).empty()) {
        return;
    }
    constexpr std::size_t longestPlace = 64;
    const auto mark = words.say("privacy.left_out");
    for (auto& [name, value] : body) {
        eachText(name, value, [&](std::string_view field, json::Value& text) {
            const auto sort = isFreeText(field) ? TextSort::Free : TextSort::Name;
            if (tracesIn(*text.string(), patterns, sort).empty()) {
                return;
            }
            auto rest = sort == TextSort::Free ? withheld(*text.string(), patterns, mark)
                                               : std::string();
            const bool place = field == "location";
            text = place && rest.size() > longestPlace ? words.say("privacy.place")
                                                       : std::move(rest);
        });
    }
}

}  // namespace station
