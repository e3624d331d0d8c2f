// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads the sentences of a language and fills their gaps. Knows no file.
#include "words/words.h"

#include "words/embedded.h"
#include "words/keys.h"
#include "words/shown.h"

#include <toml++/toml.h>
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <sstream>

namespace words {

namespace {

bool isCapital(char c) {
    return c >= 'A' && c <= 'Z';
}

enum class LetterCase { None, Small, Capital };

// A letter of ASCII or of the Latin-1 block at the beginning of a text of UTF-8; in both, a capital
// lies 0x20 below its small letter, and `at` is the byte that differs.
struct Letter {
    LetterCase letterCase = LetterCase::None;
    std::size_t at = 0;
};

Letter letterAt(std::string_view text) {
    if (text.empty()) return {};
    if (text[0] >= 'a' && text[0] <= 'z') return {LetterCase::Small, 0};
    if (isCapital(text[0])) return {LetterCase::Capital, 0};
    if (text[0] != '\xC3' || text.size() < 2) return {};
    const auto second = static_cast<unsigned char>(text[1]);
    const bool sign = second == 0x97 || second == 0xB7;  // multiplied by, divided by
    if (sign || second == 0x9F || second == 0xBF) return {};  // no capital in this block
    return {second < 0xA0 ? LetterCase::Capital : LetterCase::Small, 1};
}

char shifted(char byte, int by) {
    return static_cast<char>(static_cast<unsigned char>(byte) + by);
}

std::string withSmallFirst(std::string text) {
    const auto first = letterAt(text);
    if (first.letterCase == LetterCase::Capital)
        text[first.at] = shifted(text[first.at], 0x20);
    return text;
}

[[noreturn]] void stop(std::string_view what, std::string_view key, std::string_view detail) {
    std::fprintf(stderr, "words: %.*s: %.*s %.*s\n", static_cast<int>(what.size()), what.data(),
                 static_cast<int>(key.size()), key.data(), static_cast<int>(detail.size()),
                 detail.data());
    std::abort();
}

std::string gapName(std::string_view written) {
    std::string name(written);
    if (!name.empty() && isCapital(name[0])) name[0] = static_cast<char>(name[0] - 'A' + 'a');
    return name;
}

using Sentences = std::map<std::string, std::string, std::less<>>;

void flatten(const toml::table& table, const std::string& prefix, Sentences& sentences,
             std::vector<WordsFault>& faults) {
    for (const auto& [key, node] : table) {
        const std::string path = prefix + std::string(key.str());
        if (const auto* inner = node.as_table()) {
            flatten(*inner, path + ".", sentences, faults);
        } else if (const auto* text = node.as_string()) {
            sentences.emplace(path, text->get());
        } else {
            faults.push_back({WordsFault::Code::NotText, path, ""});
        }
    }
}

void checkGaps(const std::string& key, const std::string& text,
               const std::vector<std::string>& allowed, std::vector<WordsFault>& faults) {
    std::size_t at = 0;
    while ((at = text.find_first_of("{}", at)) != std::string::npos) {
        const auto end = text[at] == '{' ? text.find_first_of("{}", at + 1) : std::string::npos;
        if (end == std::string::npos || text[end] != '}') {
            faults.push_back({WordsFault::Code::BadBrace, key, ""});
            return;
        }
        const auto name = gapName(std::string_view(text).substr(at + 1, end - at - 1));
        if (std::find(allowed.begin(), allowed.end(), name) == allowed.end())
            faults.push_back({WordsFault::Code::UnknownGap, key, name});
        at = end + 1;
    }
}

void checkKeys(const Sentences& sentences, std::vector<WordsFault>& faults) {
    for (const auto& [key, gaps] : sentenceKeys()) {
        const auto found = sentences.find(key);
        if (found == sentences.end()) {
            faults.push_back({WordsFault::Code::Missing, key, ""});
        } else {
            checkGaps(key, found->second, gaps, faults);
        }
    }
    for (const auto& [key, text] : sentences)
        if (!sentenceKeys().contains(key)) faults.push_back({WordsFault::Code::Unknown, key, ""});
}

}  // namespace

std::string Sentence::text() const {
    if (says.empty() || action.empty()) return says + action;
    return says + " " + action;
}

std::string Notice::text() const {
    return says + " " + safe + " " + action;
}

tl::expected<Words, std::vector<WordsFault>> Words::read(std::string_view toml) {
    std::vector<WordsFault> faults;
    Words words;
    try {
        flatten(toml::parse(toml), "", words.m_sentences, faults);
    } catch (const toml::parse_error& error) {
        faults.push_back({WordsFault::Code::NotToml, "", std::string(error.description())});
        return tl::unexpected(std::move(faults));
    }
    checkKeys(words.m_sentences, faults);
    if (!faults.empty()) return tl::unexpected(std::move(faults));
    words.m_language = words.m_sentences.at("language.code");
    words.m_smallLabels = words.m_sentences.at("language.small_labels") == "yes";
    return words;
}

const Words* Words::builtIn(std::string_view language) {
    static const std::map<std::string, Words, std::less<>> all = [] {
        std::map<std::string, Words, std::less<>> read;
        for (const auto& text : embeddedLanguages()) {
            auto words = Words::read(text.toml);
            if (!words)
                stop("the built-in sentences are faulty", words.error().front().key,
                     words.error().front().detail);
            read.emplace(words->language(), std::move(*words));
        }
        return read;
    }();
    const auto found = all.find(language);
    return found == all.end() ? nullptr : &found->second;
}

std::string Words::say(std::string_view key, const Gaps& gaps) const {
    const auto found = m_sentences.find(key);
    if (found == m_sentences.end()) stop("there is no sentence", key, "");
    const std::string& text = found->second;
    std::string said;
    std::size_t at = 0;
    for (auto open = text.find('{'); open != std::string::npos; open = text.find('{', at)) {
        const auto close = text.find('}', open);
        const auto written = std::string_view(text).substr(open + 1, close - open - 1);
        const auto value = gaps.find(gapName(written));
        if (value == gaps.end()) stop("a gap is not filled", key, written);
        said.append(text, at, open - at);
        const std::string safe = shown(value->second);
        said += isCapital(written[0]) ? capitalized(safe) : safe;
        at = close + 1;
    }
    return said.append(text, at);
}

Sentence Words::sentence(std::string_view key, const Gaps& gaps) const {
    const std::string name(key);
    return {say(name + ".says", gaps), say(name + ".do", gaps)};
}

bool Words::has(std::string_view key) const {
    return m_sentences.contains(key);
}

std::string Words::label(const rules::Localized& label, std::string_view key) const {
    if (label.empty()) return readable(key);
    auto found = label.find(m_language);
    if (found == label.end()) found = label.find("");
    if (found == label.end()) found = label.begin();
    return found->second.empty() ? readable(key) : shown(found->second);
}

std::string Words::inside(std::string_view label) const {
    const auto first = letterAt(label);
    if (!m_smallLabels || first.letterCase != LetterCase::Capital) return std::string(label);
    const auto second = letterAt(label.substr(first.at + 1));
    return second.letterCase == LetterCase::Small ? withSmallFirst(std::string(label))
                                                  : std::string(label);
}

std::string Words::all(const std::vector<std::string>& items) const {
    return list(items, {"list.and", "list.and_softened", "list.and_softened_before"});
}

std::string Words::anyOf(const std::vector<std::string>& items) const {
    return list(items, {"list.or", "list.or_softened", "list.or_softened_before"});
}

std::vector<std::string> Words::listed(std::string_view key) const {
    std::istringstream stream(say(key));
    std::vector<std::string> all;
    for (std::string word; std::getline(stream, word, ',');) {
        const auto first = word.find_first_not_of(' ');
        if (first != std::string::npos) all.push_back(word.substr(first));
    }
    return all;
}

std::string Words::list(const std::vector<std::string>& items, const Joint& joint) const {
    if (items.empty()) return "";
    std::string text = items.front();
    // Added each for itself, which what goes before stands at the head of the sentence for: to say
    // all of it anew with each item takes minutes where there are many.
    for (std::size_t i = 1; i + 1 < items.size(); ++i)
        text += say("list.comma", {{"before", ""}, {"next", items[i]}});
    if (items.size() == 1) return text;
    const auto last = withSmallFirst(items.back());
    const auto beginnings = listed(joint.softenedBefore);
    const bool softened = std::any_of(beginnings.begin(), beginnings.end(),
                                      [&](const auto& each) { return last.starts_with(each); });
    return say(softened ? joint.softened : joint.plain,
               {{"before", text}, {"last", items.back()}});
}

std::string readable(std::string_view key) {
    std::string text(key);
    std::replace(text.begin(), text.end(), '_', ' ');
    return shown(text);
}

std::string smallLetters(std::string text) {
    for (std::size_t at = 0; at < text.size(); ++at) {
        const auto letter = letterAt(std::string_view(text).substr(at));
        at += letter.at;
        if (letter.letterCase == LetterCase::Capital) text[at] = shifted(text[at], 0x20);
    }
    return text;
}

std::string capitalized(std::string text) {
    const auto first = letterAt(text);
    if (first.letterCase == LetterCase::Small)
        text[first.at] = shifted(text[first.at], -0x20);
    return text;
}

}  // namespace words
