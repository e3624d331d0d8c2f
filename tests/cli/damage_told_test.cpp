// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is said where something stands in the way that nobody typed: a logbook that is held, notes
// that no program writes, files without heads, names that are empty.
#include "cli/transcript.h"

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
