// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Names of records, the words of their enumerations, and the order of reading.
#include "logbook/record.h"

#include <catch2/catch.hpp>

#include <optional>
#include <string_view>
#include <utility>
#include <vector>

using namespace logbook;

namespace {

template <class Word>
void checkWords(std::optional<Word> (*read)(std::string_view),
                const std::vector<std::pair<Word, const char*>>& words) {
    for (const auto& [value, word] : words) {
        INFO(word);
        CHECK(name(value) == word);
        CHECK(read(word) == value);
    }
    CHECK_FALSE(read(""));
    CHECK_FALSE(read("Pass"));
}

Record record(std::int64_t at, std::int64_t entered, const char* station, std::int64_t seq) {
    Record made;
    made.at = {at};
    made.entered = {entered};
    made.name = {station, seq};
    return made;
}

}  // namespace

TEST_CASE("A record's name is station and number", "[unit]") {
    CHECK(toText(RecordName{"icu-1", 60}) == "icu-1/60");
    CHECK(parseRecordName("icu-1/60") == RecordName{"icu-1", 60});
    CHECK(parseRecordName("a/9007199254740991") == RecordName{"a", 9007199254740991});
    for (const char* text :
         {"", "icu-1", "/1", "icu-1/", "icu-1/0", "icu-1/01", "icu-1/-1", "icu-1/+1", "icu-1/1 ",
          "icu-1/ 1", "ICU/1", "icu-1/1/2", "icu-1/1.0", "icu-1/9007199254740992",
          "icu-1/99999999999999999999"}) {
        INFO(text);
        CHECK_FALSE(parseRecordName(text));
    }
}

TEST_CASE("Enumerations have the words of records", "[exhaustive]") {
    checkWords<Outcome>(outcomeOf, {{Outcome::Pass, "pass"},
                                    {Outcome::Fail, "fail"},
                                    {Outcome::Incomplete, "incomplete"},
                                    {Outcome::InUse, "in_use"},
                                    {Outcome::NotLocated, "not_located"},
                                    {Outcome::Deferred, "deferred"}});
    checkWords<Reuse>(reuseOf, {{Reuse::SingleUse, "single_use"},
                                {Reuse::SinglePatient, "single_patient"},
                                {Reuse::Reusable, "reusable"},
                                {Reuse::Permanent, "permanent"}});
    checkWords<Level>(levelOf,
                      {{Level::Low, "low"}, {Level::High, "high"}, {Level::Sterile, "sterile"}});
    checkWords<NoticeAction>(noticeActionOf, {{NoticeAction::StopUse, "stop_use"},
                                              {NoticeAction::Inspect, "inspect"},
                                              {NoticeAction::Information, "information"}});
}

TEST_CASE("Each level of reprocessing includes those before it", "[unit]") {
    CHECK(Level::Low < Level::High);
    CHECK(Level::High < Level::Sterile);
}

TEST_CASE("Records are read by at, entered, station and number", "[unit]") {
    const std::vector<Record> inOrder{
        record(1, 9, "z", 9), record(2, 3, "z", 9), record(2, 4, "a", 9),
        record(2, 4, "b", 2), record(2, 4, "b", 10)};
    for (std::size_t one = 0; one < inOrder.size(); ++one) {
        for (std::size_t other = 0; other < inOrder.size(); ++other) {
            CHECK(readingOrder(inOrder[one], inOrder[other]) == (one <=> other));
        }
    }
}
