// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records without names and with coarse places. All names are invented.
#include "exchange/redaction.h"

#include "exchange/record_file.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

namespace {

std::string line(const std::string& seq, const std::string& fields, const std::string& body) {
    return R"({"at":"2026-03-02T14:00:00Z","body":)" + body + R"(,"by":"m.toller",)" + fields +
           R"("entered":"2026-03-02T14:00:00Z","seq":)" + seq + R"(,"station":"icu-1"})" + "\n";
}

// Every place in which somebody can be named.
std::string namesEverywhere() {
    return line("1", R"("device":"","kind":"person",)",
                R"({"name":"Moss Toller","person":"m.toller","roles":["lead"]})") +
           line("2", R"("device":"KB-1","done_by":"r.halvorsen","form":"Toller 7","kind":"check",)"
                     R"("witness":"g.tamsin",)",
                R"({"asked":"Toller","check":"leak","outcome":"pass",)"
                R"("measures":{"leak":{"unit":"1","value":2}}})") +
           line("3", R"("batch":"Toller","device":"KB-1","kind":"withdraw",)",
                R"({"hold":"incident","reason":"Toller dropped it"})") +
           line("4", R"("device":"KB-1","kind":"enrol",)",
                R"({"commissioned":"2026-01-15","features":[],"groups":["adult"],)"
                R"("label":"Toller's",)"
                R"("location":"ICU room 9","model":"Larch","owner":"Toller"})") +
           line("5", R"("device":"","kind":"adopt",)",
                R"({"approved_by":"Moss Toller","edition":"1","text":"# by Toller"})") +
           line("6", R"("device":"KB-1","kind":"fit",)",
                R"({"part":{"by":"Toller","lot":"L7","serial":"C-1"},)"
                R"("position":"circuit"})") +
           line("7", R"("device":"","kind":"reprocess",)",
                R"({"level":"high","parts":[{"position":"circuit","seen_by":"Toller",)"
                R"("serial":"C-1"}]})") +
           line("8", R"("device":"","kind":"notice",)",
                R"({"action":"inspect","key":"n1","match":{"asked":"Toller","lots":["L7"]},)"
                R"("title":"Toller's"})") +
           line("9", R"("device":"KB-1","kind":"check",)",
                R"({"check":"leak","measures":{"leak":{"read_by":"Toller","unit":"1","value":2}},)"
                R"("outcome":"pass"})");
}

std::vector<logbook::Record> recordsOf(const std::string& bytes) {
    const auto read = exchange::readRecordFile(bytes);
    REQUIRE(read);
    std::vector<logbook::Record> records;
    for (const auto& each : *read) records.push_back(each.record);
    return records;
}

}  // namespace

TEST_CASE("Without names nobody is named anywhere, and who is who stays the same", "[unit]") {
    const auto bytes = exchange::writeRedacted(recordsOf(namesEverywhere()), {true, false});
    for (const std::string name : {"oller", "oss", "halvorsen", "tamsin", "dropped"}) {
        CAPTURE(name);
        CHECK(bytes.find(name) == std::string::npos);
    }
    CHECK(bytes.find(R"("by":"person-1","device":"","entered":"2026-03-02T14:00:00Z",)"
                     R"("kind":"person")") != std::string::npos);
    CHECK(bytes.find(R"("person":"person-1")") != std::string::npos);
    CHECK(bytes.find(R"("done_by":"person-2")") != std::string::npos);
    CHECK(bytes.find(R"("witness":"person-3")") != std::string::npos);
    CHECK(bytes.find(R"("outcome":"pass")") != std::string::npos);
    CHECK(bytes.find("ICU room 9") != std::string::npos);
    CHECK(bytes.find(R"("part":{"lot":"L7","serial":"C-1"})") != std::string::npos);
    CHECK(bytes.find(R"("parts":[{"position":"circuit","serial":"C-1"}])") != std::string::npos);
    CHECK(bytes.find(R"("match":{"lots":["L7"]})") != std::string::npos);
    CHECK(bytes.find(R"("measures":{"leak":{"unit":"1","value":2}})") != std::string::npos);
}

TEST_CASE("Places are told up to their first number", "[unit]") {
    const auto place = [](const std::string& location) {
        const auto bytes = exchange::writeRedacted(
            recordsOf(line("1", R"("device":"KB-1","kind":"move",)",
                           "{\"location\":\"" + location + "\"}")),
            {false, true});
        const std::string start = "\"location\":\"";
        const auto from = bytes.find(start) + start.size();
        return bytes.substr(from, bytes.find('"', from) - from);
    };
    CHECK(place("ICU room 9") == "ICU room");
    CHECK(place("ICU-4, bed 2") == "ICU");
    CHECK(place("NICU clean utility") == "NICU clean utility");
    CHECK(place("4 West") == "");
    CHECK(place("Store / shelf") == "Store");
    CHECK(place("ICU room \xEF\xBC\x99") == "ICU room");  // a full-width 9
    CHECK(place("ICU\xEF\xBC\x8D") == "ICU\xEF\xBC\x8D");  // a full-width hyphen
}

TEST_CASE("With coarse places no text tells one, and persons keep their names", "[unit]") {
    const auto bytes = exchange::writeRedacted(
        recordsOf(line("1", R"("device":"KB-1","kind":"note",)",
                       R"({"text":"Seen in ICU room 7"})") +
                  line("2", R"("device":"KB-1","form":"ICU room 7","kind":"use_start",)",
                       R"({"location":"ICU room 7","reason":"from ICU room 7","where":"room 7"})") +
                  line("3", R"("device":"","kind":"person",)",
                       R"({"name":"Moss Toller","person":"m.toller","roles":["lead"]})")),
        {false, true});
    CHECK(bytes.find("room 7") == std::string::npos);
    CHECK(bytes.find(R"("location":"ICU room")") != std::string::npos);
    CHECK(bytes.find("Moss Toller") != std::string::npos);
    CHECK(bytes.find(R"("by":"m.toller")") != std::string::npos);
}

TEST_CASE("What is redacted is taken for no record", "[unit]") {
    const auto records = recordsOf(namesEverywhere());
    for (const exchange::Redaction redaction : {exchange::Redaction{true, true}, {false, true}}) {
        const auto again = exchange::readRecordFile(exchange::writeRedacted(records, redaction));
        REQUIRE_FALSE(again);
        CHECK(again.error().lines.size() == records.size());
    }
}
