// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Verify: whatever is done to a file behind the store's back is found, at the right record. What is
// done to the records themselves: tampered_records_test.cpp.
#include "store/logbook.h"

#include "logbook_files.h"
#include "support/seed.h"
#include "victim.h"

#include <catch2/catch.hpp>

#include <random>

using namespace store;
using namespace store::test;
using Reason = Break::Reason;

TEST_CASE("A whole logbook verifies up to its heads", "[unit]") {
    Victim victim;
    const auto report = victim.logbook().verify();
    REQUIRE(report);
    CHECK(report->ok());
    CHECK(report->checked == ofOne + ofOther);
    CHECK(report->heads == headsOf(victim.logbook()));
}

TEST_CASE("A tail is missed although its note is gone too", "[unit]") {
    Victim victim;
    victim.noteVerified();
    const Row row = *victim.logbook().findRecord({"icu-1", 5});
    victim.tamper("DELETE FROM records WHERE station = 'icu-1' AND seq > 5;"
                  "UPDATE local_heads SET seq = 5, hash = " +
                  hexOf(row.hash) + " WHERE station = 'icu-1'");
    CHECK(victim.breaks() == std::vector<Break>{{{"icu-1", 6}, Reason::TailLost}});
    // And is not forgotten by what is noted of that.
    victim.noteVerified();
    CHECK(victim.breaks() == std::vector<Break>{{{"icu-1", 6}, Reason::TailLost}});
}

TEST_CASE("A station taken out is missed", "[unit]") {
    const std::string sql = "DELETE FROM records WHERE station = 'icu-1'";
    Victim noted;
    noted.tamper(sql);
    CHECK(noted.breaks() == std::vector<Break>{{{"icu-1", 1}, Reason::TailLost}});
    Victim traceless;
    traceless.tamper(sql + "; DELETE FROM local_heads WHERE station = 'icu-1'");
    CHECK(traceless.breaks() == std::vector<Break>{{{"", 1}, Reason::Hole}});
}

TEST_CASE("Records in another order of arrival, or of another station, are found", "[unit]") {
    Victim byArrival;
    byArrival.tamper("UPDATE records SET arrival = 100 WHERE arrival = 3;"
                     "UPDATE records SET arrival = 3 WHERE arrival = 4;"
                     "UPDATE records SET arrival = 4 WHERE arrival = 100;");
    CHECK(byArrival.breaks() == std::vector<Break>{{{"icu-1", 4}, Reason::Order}});

    Victim byStation;
    byStation.tamper("UPDATE records SET station = 'icu-3' WHERE station = 'icu-2'");
    CHECK(byStation.breaks() == std::vector<Break>{{{"icu-2", 1}, Reason::TailLost},
                                                   {{"icu-3", 1}, Reason::Column, "station"}});
}

TEST_CASE("Well chained bytes that are no record are found", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, {note("icu-1", 1)});
    for (const std::string& content :
         {std::string("{}"), "[" + note("icu-1", 1).content + "]",
          " " + note("icu-1", 1).content}) {
        const std::string hash = hexOf(chainHash({}, content));
        const auto database = behindTheBack(folder / "log");
        database->exec("DROP TRIGGER IF EXISTS records_are_never_updated;"
                       "UPDATE records SET content = '" +
                       content + "', hash = " + hash + "; UPDATE local_heads SET hash = " + hash);
        CHECK(logbook.verify()->breaks ==
              std::vector<Break>{{{"icu-1", 1}, Reason::NotARecord}});
    }
}

TEST_CASE("Each station in doubt is named once, the others hold", "[unit]") {
    Victim victim;
    victim.tamper("UPDATE records SET device = 'KB-0002' WHERE seq IN (2, 3)");
    CHECK(victim.breaks() == std::vector<Break>{{{"icu-1", 2}, Reason::Column, "device"},
                                                {{"icu-2", 2}, Reason::Column, "device"}});
    append(victim.logbook(), notes("icu-3", 2));
    const auto report = victim.logbook().verify();
    CHECK(report->heads.at("icu-1").seq == 1);
    CHECK(report->heads.at("icu-2").seq == 1);
    CHECK(report->heads.at("icu-3").seq == 2);
}

TEST_CASE("A schema that is not as made is told", "[unit]") {
    const std::vector<std::pair<std::string, std::string>> changes = {
        {"DROP TRIGGER records_are_never_updated", "records_are_never_updated"},
        {"DROP TRIGGER records_are_never_deleted", "records_are_never_deleted"},
        {"DROP TRIGGER records_are_only_appended", "records_are_only_appended"},
        {"DROP INDEX records_by_device", "records_by_device"},
        {"CREATE TABLE extra (a)", "extra"},
        {"CREATE INDEX sqlite1stat_a ON records (seq)", "sqlite1stat_a"},
        {"CREATE TRIGGER sqlite1stat_a BEFORE INSERT ON records BEGIN SELECT 1; END",
         "sqlite1stat_a"},
        {"DROP TRIGGER records_are_never_deleted;"
         "CREATE TRIGGER records_are_never_deleted BEFORE DELETE ON records"
         " WHEN false BEGIN SELECT 1; END",
         "records_are_never_deleted"},
    };
    for (const auto& [sql, name] : changes) {
        INFO(sql);
        const TemporaryFolder folder;
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 2));
        behindTheBack(folder / "log")->exec(sql);
        const auto report = logbook.verify();
        REQUIRE(report);
        CHECK_FALSE(report->ok());
        CHECK(report->breaks.empty());
        CHECK(report->schemaChanged == std::vector<std::string>{name});
    }
}

TEST_CASE("A byte turned in the schema's own text is told as damage", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 2));
    }
    const std::string whole = bytesOf(folder / "log");
    for (const char* column :
         {"arrival INTEGER", "content TEXT", "breaks TEXT", "checked INTEGER"}) {
        INFO(column);
        std::string damaged = whole;
        REQUIRE(damaged.find(column) != std::string::npos);
        damaged[damaged.find(column) + 1] = 'X';
        writeBytes(folder / "damaged", damaged);
        const Logbook logbook = open(folder / "damaged", OpenOptions::Access::Read);
        const auto report = logbook.verify();
        REQUIRE(report);
        CHECK_FALSE(report->ok());
        CHECK_FALSE(report->schemaChanged.empty());
        const auto records = logbook.records();
        CHECK((records || records.error().code == Trouble::Code::Damaged));
    }
}

TEST_CASE("The database's own statistics are no change", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 2));
    behindTheBack(folder / "log")->exec("ANALYZE");
    CHECK(logbook.verify()->ok());
}

TEST_CASE("Verify says how far it is and can be stopped", "[unit]") {
    Victim victim;
    std::vector<std::int64_t> steps;
    CHECK(victim.logbook().verify([&](std::int64_t done, std::int64_t total) {
        CHECK(total == ofOne + ofOther);
        steps.push_back(done);
        return true;
    }));
    CHECK(steps == std::vector<std::int64_t>{ofOne, ofOne + ofOther});
    const auto stopped =
        victim.logbook().verify([](std::int64_t, std::int64_t) { return false; });
    REQUIRE_FALSE(stopped);
    CHECK(stopped.error().code == Trouble::Code::Cancelled);
}

TEST_CASE("A damaged byte is found or harms no record", "[property]") {
    const auto seed = support::seedOfRun();
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const TemporaryFolder folder;
    std::vector<std::string> before;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 60));
        append(logbook, notes("icu-2", 60));
        before = contents(logbook);
    }
    const std::string whole = bytesOf(folder / "log");
    int found = 0;
    for (int i = 0; i < 150; ++i) {
        std::string damaged = whole;
        const std::size_t place = random() % whole.size();
        damaged[place] = static_cast<char>(damaged[place] ^ (1 + random() % 255));
        writeBytes(folder / "damaged", damaged);
        INFO("byte " << place);
        const auto logbook = Logbook::open(folder / "damaged", {OpenOptions::Access::Read});
        if (!logbook) {
            ++found;
            continue;
        }
        const auto report = logbook->verify();
        REQUIRE(report);
        if (report->ok()) {
            CHECK(contents(*logbook) == before);
        } else {
            ++found;
        }
    }
    CHECK(found > 0);
}
