// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is said where something stands in the way that nobody typed: a logbook that is held, notes
// that no program writes, files without heads, names that are empty.
#include "cli/transcript.h"

#include "station/upkeep.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <catch2/catch.hpp>

using namespace support;

namespace {

void tamper(const std::string& sql) {
    SQLite::Database("ward.logbook", SQLite::OPEN_READWRITE).exec(sql);
}

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

constexpr std::string_view unaware = "boards do not show what was found here";

}  // namespace

TEST_CASE("What verify found and cannot note is said to be on no board", "[unit]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    SQLite::Database reader("ward.logbook", SQLite::OPEN_READONLY);
    const auto verifyHeld = [&] {
        reader.exec("BEGIN");
        REQUIRE(reader.execAndGet("SELECT count(*) FROM records").getInt() > 0);
        const auto held = transcript.run("verify ward.logbook");
        reader.exec("ROLLBACK");
        return held;
    };
    SECTION("where a record is gone") {
        tamper("DROP TRIGGER records_are_never_deleted; DELETE FROM records WHERE seq = 2");
        const auto held = verifyHeld();
        CHECK(held.status == 1);
        CHECK(has(held.error, "Another program held the logbook"));
        CHECK(has(held.error, unaware));
        CHECK_FALSE(has(transcript.run("verify ward.logbook").error, unaware));
    }
    SECTION("and not where nothing is") {
        const auto held = verifyHeld();
        CHECK(held.status == 0);
        CHECK(has(held.error, "Another program held the logbook"));
        CHECK_FALSE(has(held.error, unaware));
    }
}

TEST_CASE("A note of verify from which none can be counted up is told and got over", "[unit]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare("verify ward.logbook");
    const std::string number = GENERATE("9223372036854775807", "9007199254740991", "-3");
    tamper("UPDATE local_verifications SET number = " + number);
    const auto found = transcript.run("verify ward.logbook");
    CHECK(found.status == 1);
    CHECK(has(found.out, "\"local_verifications\""));
    CHECK(found.error.empty());
    CHECK(has(transcript.run("board ward.logbook").out, "ATTENTION"));
    CHECK(transcript.run("verify ward.logbook").status == 0);
    CHECK_FALSE(has(transcript.run("board ward.logbook").out, "ATTENTION"));
}

TEST_CASE("A logbook without heads holds nothing to be held against", "[unit]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare("backup ward.logbook emptied.logbook");
    SQLite::Database("emptied.logbook", SQLite::OPEN_READWRITE)
        .exec("DROP TRIGGER records_are_never_deleted; DELETE FROM records;"
              " DELETE FROM local_heads; DELETE FROM local_verifications");
    const auto held = transcript.run("verify ward.logbook --heads emptied.logbook");
    CHECK(held.status == 2);
    CHECK(has(held.error, "There are no chain heads in emptied.logbook."));
}

TEST_CASE("Two restores in one second are told apart from a name that is taken", "[unit]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare("backup ward.logbook ward-backup.logbook");
    transcript.prepare("restore ward-backup.logbook ward.logbook --station icu-1b");
    const auto second =
        transcript.run("restore ward-backup.logbook ward.logbook --station icu-1c");
    CHECK(has(second.error, "in this very second"));
    CHECK_FALSE(has(second.error, "Choose another name"));
}

TEST_CASE("An empty name is told as one that is missing", "[unit]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare("backup ward.logbook ward-backup.logbook");
    for (const auto* call : {"board \"\"", "backup ward.logbook \"\"", "import ward.logbook \"\"",
                             "restore ward-backup.logbook \"\" --station icu-1b",
                             "restore ward-backup.logbook ward.logbook --station \"\""}) {
        CAPTURE(call);
        const auto refused = transcript.run(call);
        CHECK(refused.status == 2);
        CHECK_FALSE(has(refused.error, "unknown"));
        CHECK(has(refused.error, has(call, "--station \"\"") ? "a value is missing" : "needs"));
    }
}

TEST_CASE("What is wrong with the file is not told as the disk's, nor a time that none is",
          "[unit]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare("verify ward.logbook");
    tamper("UPDATE local_verifications SET at_ms = -280000000000000");
    const auto board = transcript.run("board ward.logbook").out;
    CHECK(has(board, "unknown"));
    CHECK_FALSE(has(board, " -6"));
    tamper("CREATE TRIGGER no_more BEFORE INSERT ON records BEGIN"
           " SELECT RAISE(ABORT, 'no more'); END");
    const auto refused =
        transcript.run("log ward.logbook note KB-0142 --text Seen --as mt");
    CHECK(refused.status == 3);
    CHECK_FALSE(has(refused.error, "The disk or share"));
}

TEST_CASE("How far a verify came is not said where the note of it came to harm", "[unit]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare("verify ward.logbook");
    CHECK(has(transcript.run("board ward.logbook").out, ", up to icu-1/7."));
    tamper("UPDATE local_verifications SET heads = '[[[['");
    const auto board = transcript.run("board ward.logbook").out;
    CHECK(has(board, "Last verified"));
    CHECK(has(board, "; up to which"));
    CHECK_FALSE(has(board, "up to none"));
    CHECK(transcript.run("verify ward.logbook").status == 0);
    CHECK(has(transcript.run("board ward.logbook").out, ", up to icu-1/7."));
}

TEST_CASE("What the database tells of several pages is told in one line", "[unit]") {
    store::VerifyReport report;
    report.integrity = {"Tree 5 page 5: cell 1\nPage 21 is never used\nPage 22 is never used\n"};
    const auto findings = station::findingsOf(*words::Words::builtIn(), report);
    REQUIRE(findings.size() == 1);
    CHECK(has(findings[0],
              "Tree 5 page 5: cell 1; Page 21 is never used; Page 22 is never used."));
}
