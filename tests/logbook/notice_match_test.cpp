// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By what a notice names units and parts: the list is what the reader of records reads.
#include "logbook/notice_match.h"

#include "logbook/json.h"
#include "logbook/record_reader.h"

#include <catch2/catch.hpp>

using namespace logbook;
using Names = std::vector<std::string>;

namespace {

json::Object noticeWith(json::Object match) {
    return {{"station", "icu-1"},
            {"seq", 1},
            {"at", "2026-03-02T14:00:00Z"},
            {"entered", "2026-03-02T14:00:00Z"},
            {"by", "mt"},
            {"device", ""},
            {"kind", "notice"},
            {"body", json::Object{{"key", "fa_1"}, {"title", "Leaks"}, {"action", "inspect"},
                                  {"match", std::move(match)}}}};
}

Names unknownIn(json::Object match) {
    const auto record = readRecord(noticeWith(std::move(match)));
    REQUIRE(record);
    return unknownMatchFields(record->kind(), record->content);
}

}  // namespace

TEST_CASE("What names nothing in a notice is found", "[unit]") {
    CHECK(unknownIn({}).empty());
    CHECK(unknownIn({{"position", "hme"}, {"lots", json::Array{"L7"}}}).empty());
    CHECK(unknownIn({{"lotz", json::Array{"L7"}}}) == Names{"lotz"});
    CHECK(unknownIn({{"serial", "S-1"}, {"lots", json::Array{"L7"}}, {"Model", "Larch"}}) ==
          Names{"Model", "serial"});
    CHECK(unknownIn({{"lotz", nullptr}}).empty());
    CHECK(unknownMatchFields(Kind::Note, R"({"body":{"match":{"lotz":1}}})").empty());
    CHECK(unknownMatchFields(Kind::Notice, "none").empty());
}

TEST_CASE("What lists nothing in a notice is found", "[unit]") {
    const auto emptyIn = [](json::Object match) {
        const auto record = readRecord(noticeWith(std::move(match)));
        REQUIRE(record);
        return emptyMatchFields(record->kind(), record->content);
    };
    CHECK(emptyIn({}).empty());
    CHECK(emptyIn({{"position", "hme"}, {"lots", json::Array{"L7"}}}).empty());
    CHECK(emptyIn({{"lots", json::Array{}}, {"devices", json::Array{}}}) ==
          Names{"devices", "lots"});
}

TEST_CASE("Each field by which a notice names something is read, and no other", "[exhaustive]") {
    for (const auto field : matchFields) {
        INFO(field);
        const auto record = readRecord(noticeWith({{std::string(field), true}}));
        REQUIRE_FALSE(record);
        CHECK(record.error().front().field == "body.match." + std::string(field));
    }
}
