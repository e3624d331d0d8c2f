// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What holds of every built-in language, what Spanish needs besides, and which language is spoken.
#include "words/languages.h"

#include "support/zones.h"
#include "words/embedded.h"
#include "words/keys.h"
#include "words/times.h"

#include <catch2/catch.hpp>
#include <regex>
#include <set>
#include <toml++/toml.h>

namespace {

using Sentences = std::map<std::string, std::string>;

void collect(const toml::table& table, const std::string& prefix, Sentences& sentences) {
    for (const auto& [key, node] : table) {
        const auto path = prefix + std::string(key.str());
        if (const auto* inner = node.as_table()) collect(*inner, path + ".", sentences);
        if (const auto* text = node.as_string()) sentences.emplace(path, text->get());
    }
}

Sentences sentencesOf(std::string_view language) {
    Sentences sentences;
    for (const auto& each : words::embeddedLanguages())
        if (each.language == language) collect(toml::parse(each.toml), "", sentences);
    return sentences;
}

std::set<std::string> gapsOf(const std::string& text) {
    static const std::regex gap(R"re(\{([A-Za-z_]+)\})re");
    std::set<std::string> gaps;
    for (std::sregex_iterator each(text.begin(), text.end(), gap), end; each != end; ++each) {
        auto name = (*each)[1].str();
        if (name[0] >= 'A' && name[0] <= 'Z') name[0] = static_cast<char>(name[0] - 'A' + 'a');
        gaps.insert(name);
    }
    return gaps;
}

std::string withoutGaps(const std::string& text) {
    static const std::regex gap(R"re(\{[A-Za-z_]+\})re");
    return std::regex_replace(text, gap, "");
}

const words::Words& spanish() {
    return *words::Words::builtIn("es");
}

}  // namespace

TEST_CASE("Every built-in language has every sentence, with just the gaps of the English one",
          "[unit]") {
    const auto english = sentencesOf("en");
    for (const auto& code : words::builtInLanguages()) {
        const auto* words = words::Words::builtIn(code);
        REQUIRE(words);
        CHECK(words->language() == code);
        const auto sentences = sentencesOf(code);
        CHECK(sentences.size() == words::sentenceKeys().size());
        for (const auto& [key, text] : english) {
            INFO(code << " " << key);
            REQUIRE(sentences.contains(key));
            CHECK(gapsOf(sentences.at(key)) == gapsOf(text));
            CHECK(sentences.at(key).empty() <= key.ends_with("_before"));
        }
    }
}

TEST_CASE("No sentence is left in English by mistake", "[unit]") {
    // Symbols of units, which every language writes alike (BIPM, The International System of Units,
    // 9th edition, 5.2), an answer that the program reads, and "no".
    const std::set<std::string> rightlyEqual{
        "duration.seconds",       "duration.minutes",   "duration.hours",
        "duration.hours_minutes", "duration.span_hours", "duration.span_days",
        "language.small_labels",  "people_list.no",    "detail.no"};
    const auto english = sentencesOf("en");
    static const std::regex letter("[A-Za-z]");
    for (const auto& code : words::builtInLanguages()) {
        if (code == "en") continue;
        for (const auto& [key, text] : sentencesOf(code)) {
            INFO(code << " " << key << ": " << text);
            const bool equal = english.at(key) == text;
            // What has no letter beside its gaps says nothing in any language.
            const bool says = std::regex_search(withoutGaps(text), letter);
            CHECK((equal && says) == rightlyEqual.contains(key));
        }
    }
}

TEST_CASE("Sentences end as the English ones do", "[unit]") {
    const auto english = sentencesOf("en");
    const std::string marks = ".:?";
    for (const auto& code : words::builtInLanguages()) {
        for (const auto& [key, text] : sentencesOf(code)) {
            INFO(code << " " << key << ": " << text);
            const auto& model = english.at(key);
            const bool setting = key.starts_with("privacy.") || key.starts_with("language.");
            if (setting || text.empty() || model.empty()) continue;
            const auto endOf = [&](const std::string& each) {
                return marks.find(each.back()) == std::string::npos ? ' ' : each.back();
            };
            CHECK(endOf(text) == endOf(model));
        }
    }
}

TEST_CASE("Spanish turns its question marks and quotation marks", "[unit]") {
    for (const auto& [key, text] : sentencesOf("es")) {
        INFO(key << ": " << text);
        const auto count = [&text = text](const std::string& mark) {
            std::size_t found = 0;
            for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark, at + 1))
                ++found;
            return found;
        };
        CHECK(count("?") == count("¿"));
        CHECK(count("«") == count("»"));
    }
}

TEST_CASE("Spanish says y but e before i, and o but u before o", "[unit]") {
    CHECK(spanish().all({"circuito", "filtro"}) == "circuito y filtro");
    CHECK(spanish().all({"circuito", "filtro", "Intercambiador"}) ==
          "circuito, filtro e Intercambiador");
    CHECK(spanish().all({"Aldo", "Íñigo"}) == "Aldo e Íñigo");
    CHECK(spanish().all({"agua", "higiene"}) == "agua e higiene");
    CHECK(spanish().all({"sonda", "HME"}) == "sonda y HME");
    CHECK(spanish().anyOf({"circuito", "oxígeno"}) == "circuito u oxígeno");
    CHECK(spanish().anyOf({"7", "8"}) == "7 u 8");
    CHECK(spanish().anyOf({"HME", "humidificador"}) == "HME o humidificador");
    CHECK(words::Words::builtIn()->all({"circuit", "inner limb"}) == "circuit and inner limb");
    CHECK(words::Words::builtIn()->anyOf({"HME", "oxygen"}) == "HME or oxygen");
}

TEST_CASE("Letters with marks become small and capital too", "[unit]") {
    CHECK(spanish().inside("Índice de fugas") == "índice de fugas");
    CHECK(spanish().inside("Fórmula") == "fórmula");
    CHECK(spanish().inside("Ñu") == "ñu");
    CHECK(spanish().inside("ÍN") == "ÍN");
    CHECK(spanish().inside("HME") == "HME");
    CHECK(spanish().inside("") == "");
    CHECK(words::capitalized("última") == "Última");
    CHECK(words::capitalized("ÿ") == "ÿ");
    CHECK(words::capitalized("÷") == "÷");
    CHECK(words::capitalized("«") == "«");
    CHECK(words::smallLetters("SÍ, Ñ × 3") == "sí, ñ × 3");
    CHECK(words::readable("ultima_prueba") == "ultima prueba");
}

TEST_CASE("Spanish times stand after las, and numbers have a comma", "[unit]") {
    using support::utc;
    const auto zone = support::zone("America/Chicago");
    const words::Times times(spanish(), *zone, utc(2026, 11, 14, 18, 0));
    CHECK(times.time(utc(2026, 11, 14, 8, 10)) == "02:10");
    CHECK(times.time(utc(2026, 11, 14, 5, 59)) == "23:59 del 13 nov");
    CHECK(times.inTable(utc(2026, 11, 14, 5, 59)) == "13 nov 23:59");
    CHECK(times.inTable(utc(2026, 11, 14, 8, 10)) == "02:10");
    CHECK(times.dated(utc(2026, 11, 14, 8, 10)) == "14 nov 02:10");
    CHECK(times.when(utc(2026, 11, 12, 9, 40)) == "el 12 nov a las 03:40");
    CHECK(times.lately(utc(2026, 11, 14, 0, 5)) == "18:05 de ayer");
    CHECK(times.full(utc(2026, 11, 14, 9, 40)) ==
          "03:40 CST del 14 nov 2026 (UTC-06:00, 2026-11-14T09:40:00Z)");
    CHECK(words::duration(spanish(), {9 * 86'400'000LL}) == "9 días");
    CHECK(words::number(spanish(), 62.5) == "62,5");
    CHECK(words::exactNumber(spanish(), 200.00001) == "200,00001");
    CHECK(words::quantity(spanish(), 113.3, "mV") == "113,3 mV");
    CHECK(words::quantity(spanish(), 1e9, "1") == "1000000000");
    CHECK(words::percent(spanish(), 999, 1000) == "99,9 %");
    CHECK(words::percent(spanish(), 1, 10'000) == "menos del 0,1 %");
    CHECK(words::number(*words::Words::builtIn(), 62.5) == "62.5");
}

TEST_CASE("The first language wanted that is built in is spoken, else English", "[unit]") {
    const auto spoken = [](const std::vector<std::string>& wanted) {
        return words::wordsFor(wanted).language();
    };
    CHECK(words::builtInLanguages() == std::vector<std::string>{"en", "es"});
    CHECK(spoken({}) == "en");
    CHECK(spoken({""}) == "en");
    CHECK(spoken({"es"}) == "es");
    CHECK(spoken({"es_MX.UTF-8"}) == "es");
    CHECK(spoken({"es-419"}) == "es");
    CHECK(spoken({"es@euro"}) == "es");
    CHECK(spoken({"qu_PE", "es", "en"}) == "es");
    CHECK(spoken({"en_US.UTF-8", "es"}) == "en");
    CHECK(spoken({"C.UTF-8", "es"}) == "en");
    CHECK(spoken({"POSIX", "es"}) == "en");
    CHECK(spoken({"ESPAÑOL", "e"}) == "en");
}
