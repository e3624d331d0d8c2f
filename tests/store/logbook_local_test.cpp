// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What belongs to one file alone: its station, settings, imports and notes of verify.
#include "store/logbook.h"

#include "logbook_files.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Code = Trouble::Code;

TEST_CASE("A logbook gets its station once", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    CHECK(logbook.station().value() == std::nullopt);
    const auto bad = logbook.setStation("ICU 1", writing());
    REQUIRE_FALSE(bad);
    CHECK(bad.error().code == Code::BadStation);
    CHECK(bad.error().station == "ICU 1");

    REQUIRE(logbook.setStation("icu-1", writing()));
    CHECK(logbook.station().value() == std::optional<std::string>("icu-1"));
    append(logbook, notes("icu-1", 2));
    CHECK(logbook.setStation("icu-1", writing()));
    const auto other = logbook.setStation("icu-2", writing());
    REQUIRE_FALSE(other);
    CHECK(other.error().code == Code::StationSet);
    CHECK(other.error().station == "icu-1");
    CHECK(open(folder / "log").station().value() == std::optional<std::string>("icu-1"));
}

TEST_CASE("A station that has written elsewhere is not taken", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 2));
    const auto taken = logbook.setStation("icu-1", writing());
    REQUIRE_FALSE(taken);
    CHECK(taken.error().code == Code::StationTaken);
    CHECK(taken.error().station == "icu-1");
    CHECK(logbook.station().value() == std::nullopt);
    CHECK(logbook.setStation("icu-2", writing()));
}

TEST_CASE("Settings are kept, changed and removed", "[unit]") {
    using Settings = std::map<std::string, std::string>;
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setSetting("language", "en", writing()));
    REQUIRE(logbook.setSetting("place", "Größe 1", writing()));
    REQUIRE(logbook.setSetting("language", "es", writing()));
    CHECK(logbook.settings() == Settings{{"language", "es"}, {"place", "Größe 1"}});
    REQUIRE(logbook.setSetting("language", std::nullopt, writing()));
    CHECK(open(folder / "log").settings() == Settings{{"place", "Größe 1"}});
}

TEST_CASE("Numbers are taken once, by whoever asks", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    CHECK(logbook.takeNumbers("forms", 3, writing()).value() == 1);
    CHECK(logbook.takeNumbers("forms", 1, writing()).value() == 4);
    CHECK(logbook.takeNumbers("tags", 2, writing()).value() == 1);
    Logbook other = open(folder / "log", OpenOptions::Access::Write);
    CHECK(other.takeNumbers("forms", 10, writing()).value() == 5);
    CHECK(logbook.takeNumbers("forms", 1, writing()).value() == 15);
}

TEST_CASE("Every import is noted, one without news too", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.importRecords(lent(notes("icu-2", 3)), "icu-2.jsonl", writing(10, "lark")));
    REQUIRE(logbook.importRecords(lent(notes("icu-2", 3)), "again.jsonl", writing(20, "mt")));
    CHECK_FALSE(logbook.importRecords(lent({note("icu-2", 5)}), "gap", writing()));
    CHECK(logbook.imports() ==
          std::vector<Import>{{"icu-2.jsonl", "lark", minute(10), 3, 0},
                              {"again.jsonl", "mt", minute(20), 0, 3}});
}

TEST_CASE("The last verify noted is told", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 4));
    CHECK_FALSE(logbook.lastVerification().value().has_value());
    REQUIRE(logbook.noteVerified(*logbook.verify(), writing(60)));
    auto last = *logbook.lastVerification();
    REQUIRE(last);
    CHECK(last->at == minute(60));
    CHECK(last->ok);
    CHECK(last->checked == 4);
    CHECK(last->heads == headsOf(logbook));
    CHECK(last->breaks.empty());

    behindTheBack(folder / "log", true)->exec("UPDATE records SET device = 'x' WHERE seq = 3");
    // The clock was put back meanwhile; it is the later one all the same.
    REQUIRE(logbook.noteVerified(*logbook.verify(), writing(50)));
    last = *logbook.lastVerification();
    REQUIRE(last);
    CHECK(last->at == minute(50));
    CHECK_FALSE(last->ok);
    CHECK(last->heads.at("icu-1").seq == 2);
    CHECK(last->breaks ==
          std::vector<Break>{{{"icu-1", 3}, Break::Reason::Column, "device"}});
}

TEST_CASE("What was noted of a verify is passed over where it is no number of an entry",
          "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 4));
    tamper(folder / "log", "UPDATE records SET device = 'x' WHERE seq = 3");
    REQUIRE(logbook.noteVerified(*logbook.verify(), writing()));
    REQUIRE(logbook.lastVerification().value()->breaks.size() == 1);
    for (const std::string number : {"1e300", "-1e300", "0", "2.5", "9007199254740992", "\"3\""}) {
        INFO(number);
        behindTheBack(folder / "log")
            ->exec("UPDATE local_verifications SET breaks = '[{\"station\":\"icu-1\",\"seq\":" +
                   number + ",\"reason\":\"column\",\"detail\":\"device\"}]'");
        const auto last = *logbook.lastVerification();
        REQUIRE(last);
        CHECK_FALSE(last->ok);
        CHECK(last->breaks.empty());
    }
}

TEST_CASE("Each code and reason has a word of its own", "[unit]") {
    std::vector<std::string_view> words;
    for (int i = 0; i <= static_cast<int>(Code::Io); ++i) {
        words.push_back(name(static_cast<Code>(i)));
    }
    std::sort(words.begin(), words.end());
    CHECK(std::adjacent_find(words.begin(), words.end()) == words.end());
    for (int i = 0; i <= static_cast<int>(Break::Reason::Hole); ++i) {
        const auto reason = static_cast<Break::Reason>(i);
        CHECK(breakReasonOf(name(reason)) == reason);
    }
    CHECK_FALSE(breakReasonOf("other"));
}
