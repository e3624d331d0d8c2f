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

namespace station {

namespace {

using Code = PatientTrace::Code;

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
    std::regex marker, title, names, date, number, numbered;

    explicit Patterns(const words::Words& words)
        : marker("\\b" + anyWordOf(words, "privacy.markers") + "[ .:#]*\\S+", std::regex::icase),
          title("\\b" + anyWordOf(words, "privacy.titles") + "\\.? +[A-Z\\xC3][^ ,;.]+"),
          names("\\b[A-Z][a-z\\x80-\\xFF'-]+,? +[A-Z][a-z\\x80-\\xFF'-]+"),
          date("\\b(?:\\d{4}-\\d{1,2}-\\d{1,2}|\\d{1,2}[./-]\\d{1,2}[./-](?:\\d{4}|\\d{2}))\\b"),
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

// Digits by themselves: not those of "KB-0142007", "2026-03-02", "14:20:05" or "lot 4471203".
std::optional<PatientTrace> numberIn(const std::string& text, const Patterns& patterns) {
    for (auto match = std::sregex_iterator(text.begin(), text.end(), patterns.number);
         match != std::sregex_iterator(); ++match) {
        const auto from = static_cast<std::size_t>(match->position());
        const auto to = from + static_cast<std::size_t>(match->length());
        const bool alone = (from == 0 || !joins(text[from - 1])) &&
                           (to == text.size() || !joins(text[to]) || text[to] == '.');
        const auto before = text.substr(from > 32 ? from - 32 : 0, std::min<std::size_t>(from, 32));
        if (alone && !std::regex_search(match->str(), patterns.date) &&
            !std::regex_search(before, patterns.numbered)) {
            return PatientTrace{Code::Number, match->str()};
        }
    }
    return std::nullopt;
}

}  // namespace

std::vector<PatientTrace> patientTraces(std::string_view text, const words::Words& words) {
    const std::string read(text.substr(0, mostRead));
    const auto& patterns = patternsOf(words);
    std::vector<PatientTrace> traces;
    const auto add = [&traces](std::optional<PatientTrace> trace) {
        const bool isTold = trace && std::ranges::any_of(traces, [&](const auto& other) {
            return other.text.find(trace->text) != std::string::npos;
        });
        if (trace && !isTold) {
            traces.push_back(*std::move(trace));
        }
    };
    add(found(read, patterns.marker, Code::Marker));
    add(found(read, patterns.title, Code::Title));
    const auto names = found(read, patterns.names, Code::NameDate);
    const auto date = found(read, patterns.date, Code::NameDate);
    if (names && date) {
        traces.push_back({Code::NameDate, names->text + " … " + date->text});
    }
    add(numberIn(read, patterns));
    return traces;
}

bool isFreeText(std::string_view field) {
    static constexpr std::array<std::string_view, 5> fields{"reason", "text", "title", "label",
                                                            "location"};
    return std::ranges::find(fields, field) != fields.end();
}

std::vector<PatientTrace> patientTraces(const logbook::json::Object& body,
                                        const words::Words& words) {
    std::vector<PatientTrace> traces;
    for (const auto& [name, value] : body) {
        const auto* text = value.string();
        if (text != nullptr && isFreeText(name)) {
            const auto more = patientTraces(*text, words);
            traces.insert(traces.end(), more.begin(), more.end());
        }
    }
    return traces;
}

}  // namespace station
