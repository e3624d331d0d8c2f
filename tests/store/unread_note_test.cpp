// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a verify notes where the disk gave errors: nothing of what was not read, and what was read
// and does not fit.
#include "bad_sectors.h"
#include "logbook_files.h"
#include "store/page_damage.h"

#include <catch2/catch.hpp>
#include <cerrno>
#include <string>

using namespace store;
using namespace store::test;

namespace {

constexpr std::size_t pageSize = 4096;

// Two stations, each with pages of its own; the place of a page of the former's.
std::size_t fill(const std::filesystem::path& path) {
    {
        Logbook logbook = create(path);
        append(logbook, notes("icu-1", 60));
        append(logbook, notes("icu-2", 60));
        REQUIRE(logbook.noteVerified(*logbook.verify(), writing(10)));
    }
    const auto bytes = bytesOf(path);
    const auto place = bytes.find(R"("seq":30,"station":"icu-1")") / pageSize * pageSize;
    REQUIRE(bytes.at(place) == '\x0D');
    return place;
}

}  // namespace

TEST_CASE("What the disk did not give is not noted as damage", "[fault]") {
    for (const int error : {EIO, EREMOTEIO}) {
        INFO("error " << error);
        const TemporaryFolder folder;
        const auto place = fill(folder / "log");
        auto logbook = open(folder / "log");
        const auto before = *logbook.lastVerification();
        REQUIRE(before->ok);
        {
            const BadSectors bad(folder / "log", {place, pageSize, error});
            const auto report = logbook.verify();
            REQUIRE(report);
            REQUIRE(report->diskFailed);
            REQUIRE_FALSE(report->ok());
            CHECK_FALSE(logbook.noteVerified(*report, writing(20)));
        }
        const auto after = *logbook.lastVerification();
        CHECK(after->ok);
        CHECK(after->at == before->at);
        CHECK(logbook.setSetting("a", "b", writing(30)));
        const auto again = logbook.verify();
        CHECK(again->ok());
        CHECK(logbook.noteVerified(*again, writing(40)));
    }
}

TEST_CASE("What was read and does not fit is noted though the disk gave errors", "[fault]") {
    const TemporaryFolder folder;
    const auto place = fill(folder / "log");
    tamper(folder / "log", "UPDATE records SET device = 'KB-0002'"
                           " WHERE station = 'icu-2' AND seq = 50");
    auto logbook = open(folder / "log");
    {
        const BadSectors bad(folder / "log", {place, pageSize, EIO});
        const auto report = logbook.verify();
        REQUIRE(report);
        REQUIRE(report->diskFailed);
        CHECK(report->breaks.size() == 2);
        CHECK(logbook.noteVerified(*report, writing(20)));
    }
    const auto after = *logbook.lastVerification();
    REQUIRE(after);
    CHECK_FALSE(after->ok);
    CHECK_FALSE(arePagesDamaged(*after));
    REQUIRE(after->breaks.size() == 1);
    CHECK(after->breaks.front().record == logbook::RecordName{"icu-2", 50});
    CHECK(after->breaks.front().reason == Break::Reason::Column);
}

namespace {

constexpr const char* device = "UPDATE records SET device = ";

// Of a verify to which the disk does not give that page, which is noted.
std::vector<logbook::RecordName> notedThen(const std::filesystem::path& path, std::size_t place) {
    auto logbook = open(path);
    {
        const BadSectors bad(path, {place, pageSize, EIO});
        const auto report = logbook.verify();
        REQUIRE(report);
        REQUIRE(report->diskFailed);
        CHECK(logbook.noteVerified(*report, writing(30)));
    }
    const auto after = *logbook.lastVerification();
    REQUIRE(after);
    CHECK_FALSE(after->ok);
    std::vector<logbook::RecordName> names;
    for (const auto& each : after->breaks) {
        names.push_back(each.record);
    }
    return names;
}

// What is wrong with that record of icu-1 is noted.
void spoil(const std::filesystem::path& path, int seq) {
    tamper(path, device + std::string("'KB-0002' WHERE station = 'icu-1' AND seq = ") +
                     std::to_string(seq));
    auto logbook = open(path);
    const auto report = logbook.verify();
    REQUIRE(report);
    CHECK_FALSE(report->diskFailed);
    REQUIRE(logbook.noteVerified(*report, writing(20)));
}

using Names = std::vector<logbook::RecordName>;

}  // namespace

TEST_CASE("What was noted of what the disk does not give now stays noted", "[fault]") {
    const TemporaryFolder folder;
    const auto place = fill(folder / "log");
    spoil(folder / "log", 30);
    tamper(folder / "log",
           device + std::string("'KB-0002' WHERE station = 'icu-2' AND seq = 50"));
    CHECK(notedThen(folder / "log", place) == Names{{"icu-1", 30}, {"icu-2", 50}});
}

TEST_CASE("What was noted of what was read and fits now is noted no more", "[fault]") {
    const TemporaryFolder folder;
    const auto place = fill(folder / "log");
    spoil(folder / "log", 1);
    tamper(folder / "log", device + std::string("'KB-0001' WHERE station = 'icu-1' AND seq = 1"));
    tamper(folder / "log",
           device + std::string("'KB-0002' WHERE station = 'icu-2' AND seq = 50"));
    CHECK(notedThen(folder / "log", place) == Names{{"icu-2", 50}});
}
