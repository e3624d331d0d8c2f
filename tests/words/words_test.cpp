// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The file of sentences against the list of those the program says, and how gaps are filled.
#include "words/words.h"

#include "words/embedded.h"
#include "words/keys.h"
#include "words/shown.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <limits>
#include <regex>
#include <set>
#include <sstream>

namespace {

std::string english() {
    for (const auto& language : words::embeddedLanguages())
        if (language.language == "en") return std::string(language.toml);
    return "";
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

std::vector<words::WordsFault> faultsOf(const std::string& text) {
    const auto read = words::Words::read(text);
    REQUIRE_FALSE(read);
    return read.error();
}

// Every word of small letters, figures and underscores in a text in quotes, in all sources but the
// tables of keys.
std::set<std::string> literalsOfSources() {
    static const std::regex quoted(R"re("((?:[^"\\]|\\.)*)")re");
    static const std::regex wordOf("[a-z0-9_]+");
    std::set<std::string> words;
    const auto source = std::string(AIRMUSTER_SOURCE_DIR) + "/src";
    for (const auto& entry : std::filesystem::recursive_directory_iterator(source)) {
        const auto name = entry.path().filename().string();
        const bool code = name.ends_with(".cpp") || name.ends_with(".h");
        if (!code || name.starts_with("keys_")) continue;
        std::ifstream file(entry.path());
        for (std::string line; std::getline(file, line);) {
            for (std::sregex_iterator text(line.begin(), line.end(), quoted), end; text != end;
                 ++text) {
                const auto inside = (*text)[1].str();
                for (std::sregex_iterator each(inside.begin(), inside.end(), wordOf); each != end;
                     ++each)
                    words.insert(each->str());
            }
        }
    }
    return words;
}

}  // namespace

using Code = words::WordsFault::Code;

TEST_CASE("the built-in English is the file in data/words and has every sentence", "[unit]") {
    std::ifstream file(std::string(AIRMUSTER_SOURCE_DIR) + "/data/words/en.toml");
    std::ostringstream text;
    text << file.rdbuf();
    CHECK(text.str() == english());
    const auto* words = words::Words::builtIn("en");
    REQUIRE(words);
    CHECK(words->language() == "en");
    CHECK(words::Words::builtIn("xx") == nullptr);
    for (const auto& [key, gaps] : words::sentenceKeys()) CHECK(words->has(key));
}

TEST_CASE("a language that lacks a sentence, or has one too many, is refused", "[unit]") {
    const auto missing = faultsOf(replaced(english(), "retired = \"retired\"\n", ""));
    REQUIRE(missing.size() == 1);
    CHECK(missing[0].code == Code::Missing);
    CHECK(missing[0].key == "verdict.retired");

    const auto unknown = faultsOf(replaced(english(), "[verdict]\n", "[verdict]\nextra = \"x\"\n"));
    REQUIRE(unknown.size() == 1);
    CHECK(unknown[0].code == Code::Unknown);
    CHECK(unknown[0].key == "verdict.extra");

    const auto gap = faultsOf(replaced(english(), "Ready at {time}", "Ready at {hour}"));
    REQUIRE(gap.size() == 1);
    CHECK(gap[0].code == Code::UnknownGap);
    CHECK(gap[0].detail == "hour");

    CHECK(faultsOf(replaced(english(), "Ready at {time}", "Ready at {time"))[0].code ==
          Code::BadBrace);
    CHECK(faultsOf(replaced(english(), "retired = \"retired\"", "retired = 1"))[0].code ==
          Code::NotText);
    CHECK(faultsOf("a = ")[0].code == Code::NotToml);
}

TEST_CASE("every sentence of the list is said somewhere", "[unit]") {
    const auto literals = literalsOfSources();
    for (const auto& [key, gaps] : words::sentenceKeys()) {
        if (key.starts_with("month_name.")) continue;  // by number
        auto word = key;
        for (const std::string end : {".says", ".do", ".safe"})
            if (word.ends_with(end)) word.erase(word.size() - end.size());
        word.erase(0, word.rfind('.') + 1);
        // Some are put together from a word and how it is said, or from a kind and its outcome.
        auto whole = word;
        for (const std::string end : {"_roles", "_soiled", "_group"})
            if (word.ends_with(end)) word.erase(word.size() - end.size());
        for (const std::string begin : {"check_", "service_"})
            if (key.starts_with("record.") && word.starts_with(begin)) word.erase(0, begin.size());
        INFO(key);
        CHECK((literals.contains(word) || literals.contains(whole)));
    }
}

TEST_CASE("gaps are filled, with a capital where asked, and made safe", "[unit]") {
    const auto& words = *words::Words::builtIn();
    CHECK(words.say("finding.lapsed.do", {{"check", "leak test"}}) == "Repeat the leak test.");
    CHECK(words.say("finding.not_before.do",
                    {{"check", "leak test"}, {"time", "03:30"}, {"wait", "12 min"}}) ==
          "Leak test at 03:30 or later, 12 min to wait.");
    CHECK(words.say("record.note", {{"text",
                                     "a\xE2\x80\xAE"
                                     "b\n{c}"}}) == "Note: a\\u{202E}b\\u{000A}{c}");
}

TEST_CASE("labels fall back from the language to any, then to the key", "[unit]") {
    const auto& words = *words::Words::builtIn();
    CHECK(words.label({{"en", "Leak"}, {"", "All"}}, "leak") == "Leak");
    CHECK(words.label({{"es", "Fuga"}, {"", "All"}}, "leak") == "All");
    CHECK(words.label({{"es", "Fuga"}, {"fr", "Fuite"}}, "leak") == "Fuga");
    CHECK(words.label({}, "leak_test_two") == "leak test two");
    CHECK(words.inside("Flow sensor") == "flow sensor");
    CHECK(words.inside("HME") == "HME");
    CHECK(words.inside("CO2 sensor") == "CO2 sensor");
    CHECK(words.inside("Y-piece") == "Y-piece");
}

TEST_CASE("lists read as a person would say them", "[unit]") {
    const auto& words = *words::Words::builtIn();
    CHECK(words.all({}).empty());
    CHECK(words.all({"a"}) == "a");
    CHECK(words.all({"a", "b"}) == "a and b");
    CHECK(words.anyOf({"a", "b", "c"}) == "a, b or c");
}

TEST_CASE("a list of many takes as long as each of its names", "[unit]") {
    const auto secondsFor = [](std::size_t count) {
        const std::vector<std::string> names(count, "icu-1/412");
        auto least = std::numeric_limits<double>::max();
        for (int times = 0; times < 3; ++times) {
            const auto before = std::clock();
            const auto said = words::Words::builtIn()->all(names);
            least = std::min(least, static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC);
            REQUIRE(said.size() == 11 * count - 2 + 3);
        }
        return least;
    };
    // Eight times as many: eight times as long, not sixty-four.
    CHECK(secondsFor(8000) < 24 * secondsFor(1000));
    for (const auto& language : words::embeddedLanguages()) {
        const auto& said = *words::Words::builtIn(language.language);
        CHECK(said.all({"a", "b", "c", "d"}).starts_with("a, b, c "));
    }
}

TEST_CASE("what could hide or turn text round is shown as an escape", "[unit]") {
    CHECK(words::shown("Größe 1 – 你好") == "Größe 1 – 你好");
    CHECK(words::shown("\x1b[31m") == "\\u{001B}[31m");
    CHECK(words::shown("a\xE2\x80\x8F"
                       "b") == "a\\u{200F}b");
    CHECK(words::shown("\xEF\xBB\xBF") == "\\u{FEFF}");
    // Default_Ignorable_Code_Point in DerivedCoreProperties.txt of the Unicode Character Database.
    CHECK(words::shown("\xCD\x8F\xE1\xA0\x8B\xF0\x9D\x85\xB3") == "\\u{034F}\\u{180B}\\u{1D173}");
    // The blank of braille, private use, and what is no character at all.
    CHECK(words::shown("\xE2\xA0\x80\xEE\x80\x80\xF3\xB0\x80\x80") ==
          "\\u{2800}\\u{E000}\\u{F0000}");
    CHECK(words::shown("\xEF\xBF\xBF\xEF\xB7\x90\xF0\x9F\xBF\xBE") ==
          "\\u{FFFF}\\u{FDD0}\\u{1FFFE}");
    // What chooses the look of the character before it, and marks a byte that was lost, stays.
    CHECK(words::shown("E\xEF\xB8\x8F\xEF\xBF\xBD") == "E\xEF\xB8\x8F\xEF\xBF\xBD");
    CHECK(words::shown("\xC2\x85") == "\\u{0085}");
    CHECK(words::shown("a\xFF") == "a\\x{FF}");
    CHECK(words::shown("\xC0\x80\xED\xA0\x80") == "\\x{C0}\\x{80}\\x{ED}\\x{A0}\\x{80}");
    CHECK(words::shown(words::shown("\x01")) == words::shown("\x01"));
    CHECK(words::columns("Größe") == 5);
    CHECK(words::columns("e\xCC\x81") == 1);
    CHECK(words::columns("你好") == 4);
    CHECK(words::firstColumns("你好", 3) == "你");
}
