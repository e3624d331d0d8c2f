// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Heads as JSON.
#include "store/heads.h"

#include <catch2/catch.hpp>

using namespace store;
namespace json = logbook::json;

TEST_CASE("Heads survive their JSON", "[unit]") {
    const Heads heads = {{"icu-1", {412, sha256("a")}}, {"icu-2", {1, sha256("b")}}};
    CHECK(json::canonical(toJson(heads)) == "{\"icu-1\":[412,\"" + toHex(sha256("a")) +
                                                "\"],\"icu-2\":[1,\"" + toHex(sha256("b")) +
                                                "\"]}");
    CHECK(headsFromJson(toJson(heads)) == heads);
    CHECK(headsFromJson(json::Object{}) == Heads{});
}

TEST_CASE("Other shapes are no heads", "[unit]") {
    const std::string hex = toHex(sha256("a"));
    const std::vector<std::string> others = {
        "[]", "null", "{\"a\":1}", "{\"a\":[1]}", "{\"a\":[1,2]}",
        "{\"a\":[\"1\",\"" + hex + "\"]}",
        "{\"a\":[0,\"" + hex + "\"]}", "{\"a\":[1.5,\"" + hex + "\"]}", "{\"a\":[1,\"ff\"]}",
        "{\"a\":[1,\"" + hex + "\",1]}",
    };
    for (const std::string& text : others) {
        INFO(text);
        CHECK_FALSE(headsFromJson(*json::parse(text)));
    }
}
