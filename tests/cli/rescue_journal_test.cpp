// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told where something may be lacking: the journal of a write that was cut off could not be
// read, or the notes of how far the entries go; and where such a journal is put aside.
#include "cli/calling.h"

#include "station/lost_pages.h"
#include "station/rescue.h"
#include "station/upkeep.h"

using namespace support;

namespace {

struct Harmed : Ward {
    Harmed() {
        found();
        enrol("KB-0001");
    }

    Called salvaged() { return call(*this, {"salvage", logbook.path.string(), target.string()}); }

    std::filesystem::path target{folder.file("good.logbook")};
    std::filesystem::path journal{folder.file("ward.logbook-journal")};
};

}  // namespace

TEST_CASE("A salvage that could not read the journal does not say that nothing lacks", "[fault]") {
    Harmed ward;
    std::filesystem::create_directory(ward.journal);
    const auto told = ward.salvaged();
    CHECK(told.status == 1);
    CHECK_THAT(told.out, Catch::Contains("ward.logbook-journal stands where the journal"));
    CHECK_THAT(told.out, Catch::Contains("Entries may be lacking that only the journal gives."));
    CHECK_THAT(told.out, !Catch::Contains("othing is known to be lacking"));
    CHECK(std::filesystem::is_directory(ward.journal));
}

TEST_CASE("A salvage says that what was noted of the entries could not be looked at", "[fault]") {
    Harmed ward;
    ward.folder.write("ward.logbook-journal", std::string(600, '\0'));
    const auto whole = ward.salvaged();
    CHECK(whole.status == 0);
    CHECK_THAT(whole.out, Catch::Contains("\nNothing is known to be lacking."));
    std::filesystem::remove(ward.target);
    zeroTable(ward.logbook.path, "local_heads");
    const auto told = ward.salvaged();
    CHECK(told.status == 1);
    CHECK_THAT(told.out, Catch::Contains("How far the entries of icu-1 went could not be"));
    CHECK_THAT(told.out, Catch::Contains("\nBeyond that nothing is known to be lacking."));
    CHECK_THAT(told.out, !Catch::Contains("\nNothing is known to be lacking."));
}

TEST_CASE("Where nothing is salvaged the journal that was not read is told too", "[fault]") {
    Harmed ward;
    ward.folder.write("letter", "Dear Rowan, the circuits have come.");
    ward.folder.write("letter-journal", "See you on Monday.");
    const auto told =
        call(ward, {"salvage", ward.folder.file("letter").string(), ward.target.string()});
    CHECK(told.status == 3);
    CHECK_THAT(told.error, Catch::Contains("letter-journal stands where the journal"));
    CHECK_FALSE(std::filesystem::exists(ward.target));
}

TEST_CASE("A restore names both files that it put aside", "[fault]") {
    Harmed ward;
    const auto path = ward.logbook.path.string();
    const auto copy = ward.folder.file("copy.logbook");
    REQUIRE(station::backUp(ward.surroundings, ward.logbook, copy));
    // As a power cut leaves it before anything of the write is on the disk.
    ward.folder.write("ward.logbook-journal", std::string(600, '\0'));
    const auto told = call(ward, {"restore", copy.string(), path, "--station", "icu-1b"});
    INFO(told.error);
    CHECK(told.status == 0);
    const auto aside = path + ".before-20260302T140000Z";
    CHECK_THAT(told.out, Catch::Contains("What stood there was put aside as " + aside + ".\n"));
    CHECK_THAT(told.out, Catch::Contains("With it went " + aside + "-journal, "));
    CHECK_THAT(told.out, Catch::Contains("The two belong together"));
    CHECK(bytesOf(aside + "-journal") == std::string(600, '\0'));
    CHECK_FALSE(std::filesystem::exists(ward.journal));
    const auto salvaged = call(ward, {"salvage", aside, ward.target.string()});
    CHECK(salvaged.status == 0);
}
