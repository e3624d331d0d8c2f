// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is meant as a head and cannot be read, and what only looks a little like one.
#include "station/heads_doubt.h"

#include "support/folder.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <vector>

using Doubtful = std::vector<station::DoubtfulHead>;

namespace {

// "b" and figures, as a hash has both.
std::string hex(std::size_t count = 64) {
    std::string figures;
    while (figures.size() < count) {
        figures += figures.size() % 2 == 0 ? 'b' : '7';
    }
    return figures;
}

station::DoubtfulHeads doubtfulIn(std::string_view text) {
    return station::doubtfulHeads(text, station::headsInText(text),
                                  {"up to entry", "hasta la anotaci\u00f3n"});
}

Doubtful seenIn(std::string_view text) {
    return doubtfulIn(text).first;
}

}  // namespace

TEST_CASE("A hash that was typed wrong or cut short is in doubt", "[unit]") {
    auto wrong = hex();
    for (const char letter : {'O', 'l', 'g', 'z'}) {
        wrong[20] = letter;
        INFO(wrong);
        CHECK(seenIn("  icu-1: up to entry 412, " + wrong + "\n") ==
              Doubtful{{"icu-1/412", wrong}});
        CHECK(seenIn("{\"icu-1\":[412,\"" + wrong + "\"]}") == Doubtful{{"icu-1/412", wrong}});
        CHECK(seenIn("icu-1: hasta 412, " + wrong) == Doubtful{{"icu-1/412", wrong}});
    }
    for (const std::size_t length : {8U, 40U, 63U, 65U, 66U}) {
        const auto cut = hex(length);
        INFO(length);
        CHECK(seenIn("> icu-1: up to entry 412,\n>    " + cut) == Doubtful{{"icu-1/412", cut}});
        CHECK(seenIn("icu-1: 412, " + cut + " and so on") == Doubtful{{"icu-1/412", cut}});
        CHECK(seenIn("\"icu-1\" : [ 412 ,\n \"" + cut + "\" ]") == Doubtful{{"icu-1/412", cut}});
        CHECK(seenIn("\"icu-1\":[412,\"" + cut) == Doubtful{{"icu-1/412", cut}});
    }
    CHECK(seenIn("icu-1: 412, " + hex(40) + "\n" + hex(23)) ==
          Doubtful{{"icu-1/412", hex(40)}});
}

TEST_CASE("What stands where reports have a hash is in doubt, whatever it is", "[unit]") {
    CHECK(seenIn("{\"icu-1\":[21,\"\u2026\"],\"er-2\":[5,\"zz\"]}") ==
          Doubtful{{"icu-1/21", "\u2026"}, {"er-2/5", "zz"}});
    CHECK(seenIn("icu-1: up to entry 412, fd") == Doubtful{{"icu-1/412", "fd"}});
    CHECK(seenIn("icu-1: hasta la anotaci\u00f3n 412,\n\nCuidado") ==
          Doubtful{{"icu-1/412", "Cuidado"}});
    CHECK(seenIn("icu-1: up to entry 412") == Doubtful{{"icu-1/412", ""}});
    CHECK(seenIn("{\"icu-1\":[412") == Doubtful{{"icu-1/412", ""}});
    CHECK(seenIn("{\"icu-1\":[412,\n") == Doubtful{{"icu-1/412", ""}});
    CHECK(seenIn("\"icu-1\":[412,\"" + std::string(100, 'x') + "\"") ==
          Doubtful{{"icu-1/412", std::string(80, 'x') + "\u2026"}});
}

TEST_CASE("A whole hash with a station or a number that is none is in doubt", "[unit]") {
    CHECK(seenIn("icu-1: up to entry 4l2, " + hex()) == Doubtful{{"icu-1/4l2", hex()}});
    CHECK(seenIn("ICU-1: up to entry 412, " + hex()).size() == 1);
    CHECK(seenIn("icu-1: up to entry 412 " + hex()).size() == 1);
    CHECK(seenIn("icu-1: up to entry 412; " + hex()).size() == 1);
    CHECK(seenIn("icu-1:412, " + hex()).size() == 1);
    CHECK(seenIn("\"ICU-1\":[412,\"" + hex() + "\"]").size() == 1);
    CHECK(seenIn("\"icu-1\":[4e2,\"" + hex() + "\"]").size() == 1);
}

TEST_CASE("A head that was read is in no doubt, nor those beside one that was not", "[unit]") {
    const auto good = "icu-1: up to entry 412, " + hex() + "\n";
    CHECK(seenIn(good).empty());
    CHECK(seenIn("{\"icu-1\":[412,\"" + hex() + "\"],\"er-2\":[5,\"" + hex() + "\"]}").empty());
    CHECK(seenIn("icu-1: up to entry 412, " + hex(40) + "\n  " + hex(24)).empty());
    CHECK(seenIn(good + "er-2: up to entry 5, " + hex(50) + "\n" + good) ==
          Doubtful{{"er-2/5", hex(50)}});
}

TEST_CASE("Prose, counts and dates are no heads", "[unit]") {
    for (const std::string& text :
         {std::string("icu-1: bed 4, ventilator"), std::string("icu-1: bed 4, KB-0142"),
          std::string("icu-1: room 3, 2 units, 14 circuits"),
          std::string("er-2: at 5, 2026-11-30T04:40:52Z"), std::string("at 04:40, 29 Nov 2026"),
          std::string("icu-1: entries until 29 Nov 2026 20:22 CST (UTC-06:00, 2026-11-30T02:22Z)"),
          std::string("starts: 4, 5, 6"), std::string("in all: 12, feedback and facades"),
          std::string("notice: lots 4, 12345678"), std::string("{\"wilson95\":[0.9,0.99]}"),
          std::string("{\"counts\":[3,4],\"lots\":[\"L7\",\"L8\"]}"),
          hex() + "  ward.logbook", "the seal of it: " + hex(),
          "page 21: " + hex(40), std::string("icu-1: up to entry")}) {
        INFO(text);
        CHECK(doubtfulIn(text).count == 0);
    }
}

TEST_CASE("What the program prints otherwise is in no doubt", "[unit]") {
    int files = 0;
    const auto folder = std::filesystem::path(AIRMUSTER_SOURCE_DIR) / "tests/cli/approved";
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        CAPTURE(entry.path().filename().string());
        CHECK(seenIn(support::bytesOf(entry.path())).empty());
        ++files;
    }
    CHECK(files > 25);
}

TEST_CASE("No text with many of them takes long, and not all are kept", "[unit]") {
    for (const std::string& piece :
         {std::string("\"a\":[1,\"x\"] "), "a: 1, " + hex(50) + " ", std::string("a: "),
          std::string("\"\""), "\"a\":[1,\"" + std::string(1000, 'x'), std::string("a:1;"),
          "a: " + std::string(61, 'x'), "a: 1" + std::string(1000, ' ')}) {
        INFO(piece.substr(0, 20));
        std::string text;
        while (text.size() < (2U << 20)) {
            text += piece;
        }
        const auto doubtful = doubtfulIn(text);
        CHECK(doubtful.first.size() == std::min<std::size_t>(doubtful.count, 100));
    }
    CHECK(doubtfulIn("\"a\":[1,\"x\"] \"a\":[2,\"x\"]").count == 2);
}
