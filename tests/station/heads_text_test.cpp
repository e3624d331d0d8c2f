// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Heads out of texts: of the program, of people, and of whoever wants to stop the program.
#include "station/heads_text.h"

#include "station/rescue.h"
#include "ward.h"

#include <catch2/catch.hpp>

using namespace support;
using Found = std::vector<store::Heads>;

namespace {

Found headsInText(std::string_view text) {
    return station::headsInText(text).heads;
}

store::Hash hashOf(char figure) {
    return *store::hashFromHex(std::string(64, figure));
}

std::string hex(char figure) {
    return std::string(64, figure);
}

}  // namespace

TEST_CASE("heads are found as verify, backup and a report have them", "[unit]") {
    const Found both{{{"icu-1", {412, hashOf('a')}}, {"icu-2", {7, hashOf('b')}}}};
    CHECK(headsInText("{\"icu-1\":[412,\"" + hex('a') + "\"],\"icu-2\":[7,\"" + hex('b') +
                      "\"]}") == both);
    CHECK(headsInText("{\n  \"icu-1\" : [\n 412 ,\n\t\"" + hex('a') + "\"],\"icu-2\": [ 7, \"" +
                      hex('b') + "\" ] }") == both);
    CHECK(headsInText("Chain heads\n  icu-1: up to entry 412, " + hex('a') +
                      "\n  icu-2: hasta la anotaci\u00f3n 7,\n    " + hex('b') + "\n") == both);
    CHECK(headsInText("{\"line\":\"icu-1: up to entry 412, " + hex('a') + "\"} icu-2: 7, " +
                      hex('b')) == both);
}

TEST_CASE("each of several heads of one station is found", "[unit]") {
    const auto text = "icu-1: 412, " + hex('a') + " icu-2: 7, " + hex('b') + " icu-1: 3, " +
                      hex('c') + " icu-1: 412, " + hex('a') + " icu-1: 412, " + hex('d');
    CHECK(headsInText(text) == Found{{{"icu-1", {412, hashOf('a')}}, {"icu-2", {7, hashOf('b')}}},
                                     {{"icu-1", {3, hashOf('c')}}},
                                     {{"icu-1", {412, hashOf('d')}}}});
}

TEST_CASE("heads are found as mails and editors leave them", "[unit]") {
    const Found one{{{"icu-1", {412, hashOf('a')}}}};
    CHECK(headsInText("icu-1: 412, " + hex('A')) == one);
    CHECK(headsInText("\"icu-1\":[412,\"" + hex('A') + "\"]") == one);
    CHECK(headsInText("> icu-1: 412, " + hex('a').substr(0, 40) + "\r\n> " +
                      hex('a').substr(40) + "\n") == one);
    CHECK(headsInText("icu-1: 412, " + hex('a').substr(0, 30) + "\n    " +
                      hex('a').substr(30, 30) + "\n    " + hex('a').substr(60)) == one);
    const auto begun = "icu-1: 412, " + hex('a').substr(0, 40);
    CHECK(headsInText(begun + "\n" + hex('a').substr(39)).empty());
    CHECK(headsInText(begun + " " + hex('a').substr(40)).empty());
}

TEST_CASE("what is no head is taken for none", "[unit]") {
    for (const std::string& text :
         {std::string(), hex('a'), "412, " + hex('a'), ": 412, " + hex('a'),
          "icu-1: 412 " + hex('a'), "icu-1: 412," + hex('a'), "icu-1: 0, " + hex('a'),
          "icu-1:412, " + hex('a'), "-icu: 412, " + hex('a'), "icu-1: 412, " + hex('a') + "a",
          "icu-1: 412, " + hex('a').substr(1), "icu-1: 1234567890123456, " + hex('a'),
          "icu-1: " + std::string(61, 'x') + "412, " + hex('a'),
          "icu-1: up\nto 412, " + hex('a'), "\"icu-1\":[412,\"" + hex('a'),
          "\"Icu-1\":[412,\"" + hex('a') + "\"]",
          "\"icu-1\":[4e2,\"" + hex('a') + "\"]", "\"icu-1\",[412,\"" + hex('a') + "\"]"}) {
        INFO(text);
        CHECK(headsInText(text).empty());
    }
}

TEST_CASE("no text takes long or stops the program", "[unit]") {
    const std::size_t many = 2U << 20;
    for (const std::string& piece :
         {std::string(" "), std::string("a"), std::string("\""), std::string("\"a\":[1,"),
          "\"a\" :" + std::string(1000, ' '), "a: " + std::string(60, 'x'),
          hex('a') + ", ", std::string("a-1: 1,") + std::string(1000, '\n'),
          std::string("abcdef12\n"),
          std::string("abcdef12\n") + std::string(39, ' ')}) {
        INFO(piece.substr(0, 20));
        std::string text;
        while (text.size() < many) {
            text += piece;
        }
        CHECK(headsInText(text).empty());
        CHECK(headsInText(text + "\nicu-1: 412, " + hex('b')).size() == 1);
    }
}

TEST_CASE("heads are looked for in no file that is no text of them", "[unit]") {
    const Ward ward;
    const auto code = [&](const std::filesystem::path& path) {
        return station::headsIn(ward.surroundings, path).error().code;
    };
    CHECK(code("/dev/zero") == "file.no_plain_file");
    CHECK(code(ward.folder.path()) == "file.not_a_file");
    ward.folder.write("long", "icu-1: 412, " + hex('a') + std::string(16U << 20, ' '));
    CHECK(code(ward.folder.file("long")) == "rescue.no_heads");
    ward.folder.write("short", "icu-1: 412, " + hex('a'));
    CHECK(station::headsIn(ward.surroundings, ward.folder.file("short"))->count() == 1);
    // As some editors save a text: two bytes a letter.
    std::string wide = "\xFF\xFE";
    for (const char letter : "icu-1: 412, " + hex('a')) {
        wide += letter;
        wide += '\0';
    }
    ward.folder.write("wide", wide);
    CHECK(station::headsIn(ward.surroundings, ward.folder.file("wide"))->count() == 1);
    // A backup that was cut off is told as that.
    ward.folder.write("cut", std::string("SQLite format 3\0", 16) + std::string(2984, 'x'));
    CHECK(code(ward.folder.file("cut")) == "trouble.not_a_logbook");
}

TEST_CASE("a logbook is held against every head in a file", "[unit]") {
    Ward ward;
    ward.found();
    const auto logbook = store::Logbook::open(ward.logbook.path, {});
    REQUIRE(logbook);
    const auto now = store::headsOf(*logbook->heads());
    const auto last = now.at("icu-1");
    const auto against = [&](const std::vector<store::Heads>& earlier) {
        return *station::breaksAgainst(ward.surroundings, ward.logbook, earlier);
    };
    using Reason = store::Break::Reason;
    CHECK(against({now, now}).empty());
    CHECK(against({{{"icu-1", {1, hashOf('a')}}}, now}) ==
          std::vector<store::Break>{{{"icu-1", 1}, Reason::NotAsNoted}});
    CHECK(against({now, {{"icu-1", {last.seq + 1, hashOf('a')}}}, {{"icu-1", {1, hashOf('a')}}}}) ==
          std::vector<store::Break>{{{"icu-1", 1}, Reason::NotAsNoted}});
}
