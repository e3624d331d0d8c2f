// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences of one language, by key, with named gaps. Every sentence said to a person comes
// from here. Knows no file: the text of a language is given, or was built in.
#pragma once

#include "rules/rulebook.h"

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace words {

// What goes into the gaps of a sentence, by name. Values may be any text from a record.
using Gaps = std::map<std::string, std::string, std::less<>>;

// What is so, and what to do about it.
struct Sentence {
    std::string says;
    std::string action;
    [[nodiscard]] std::string text() const;  // "Says. Action."
    bool operator==(const Sentence&) const = default;
};

// What happened, whether the data is safe, and what to do next.
struct Notice {
    std::string says;
    std::string safe;
    std::string action;
    [[nodiscard]] std::string text() const;
};

// What is wrong with a file of sentences.
struct WordsFault {
    enum class Code {
        NotToml,     // detail: where and why
        NotText,     // a value that is no text
        Missing,     // a sentence the program says is not there
        Unknown,     // a sentence the program never says
        UnknownGap,  // detail: a gap that the program does not fill there
        BadBrace,    // a brace that belongs to no gap
    };
    Code code{};
    std::string key;
    std::string detail;
};

class Words {
public:
    // All faults, not only the first.
    [[nodiscard]] static tl::expected<Words, std::vector<WordsFault>> read(std::string_view toml);

    // A language that is built in; null if there is none such. Stops if its file is faulty.
    [[nodiscard]] static const Words* builtIn(std::string_view language = "en");

    [[nodiscard]] const std::string& language() const { return m_language; }

    // The sentence of that key. Values of gaps are made safe to show first (shown.h). `{Name}` in
    // the sentence is the gap `name` with a capital letter. An unknown key, or a gap of the
    // sentence that is not given, is a bug and stops the program.
    [[nodiscard]] std::string say(std::string_view key, const Gaps& gaps = {}) const;

    // The same for a key that ends in ".says" and one that ends in ".do".
    [[nodiscard]] Sentence sentence(std::string_view key, const Gaps& gaps = {}) const;

    // Whether the program knows a sentence of that key.
    [[nodiscard]] bool has(std::string_view key) const;

    // A label in this language, else the one for every language, else any, else the key with blanks
    // for underscores; safe to show.
    [[nodiscard]] std::string label(const rules::Localized& label, std::string_view key) const;

    // As a word inside a sentence: "Flow sensor" becomes "flow sensor", "HME" stays. Letters of the
    // Latin-1 block count too: "Ámbito" becomes "ámbito".
    [[nodiscard]] std::string inside(std::string_view label) const;

    // "a, b and c"; "a, b or c". Empty for no items. Before some beginnings a language has another
    // word: Spanish says "y", but "e" before "i" or "hi".
    [[nodiscard]] std::string all(const std::vector<std::string>& items) const;
    [[nodiscard]] std::string anyOf(const std::vector<std::string>& items) const;

    // The words with commas between that the sentence of that key lists: "yes", "sí, si".
    [[nodiscard]] std::vector<std::string> listed(std::string_view key) const;

private:
    // The keys of what joins the last item: mostly, otherwise, and before which beginnings that is.
    struct Joint {
        std::string_view plain, softened, softenedBefore;
    };
    [[nodiscard]] std::string list(const std::vector<std::string>& items, const Joint& joint) const;

    std::map<std::string, std::string, std::less<>> m_sentences;
    std::string m_language;
    bool m_smallLabels = false;
};

// A key with blanks for underscores, safe to show.
[[nodiscard]] std::string readable(std::string_view key);

// All letters small, as far as they are ASCII or of the Latin-1 block: "SÍ" becomes "sí".
[[nodiscard]] std::string smallLetters(std::string text);

// The first letter in capitals, if it is one of a to z or of the Latin-1 block.
[[nodiscard]] std::string capitalized(std::string text);

}  // namespace words
