// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Founding and opening logbooks, and which trouble is whose.
#include "station/open.h"

#include "station/rescue.h"
#include "station/upkeep.h"
#include "station/ward.h"

#include <functional>
#include <sys/stat.h>

using support::Ward;

TEST_CASE("A station is founded once, in a new file or in one that is there", "[unit]") {
    Ward ward;
    const auto made = station::foundStation(ward.surroundings, ward.logbook, "icu-1");
    REQUIRE(made);
    CHECK(*made);
    const auto before = ward.bytes();
    CHECK(*station::foundStation(ward.surroundings, ward.logbook, "icu-1") == false);
    CHECK(station::foundStation(ward.surroundings, ward.logbook, "icu-2").error().code ==
          "trouble.station_set");
    CHECK((ward.bytes() == before));
}

TEST_CASE("A bad name founds nothing and leaves no file", "[unit]") {
    Ward ward;
    const auto made = station::foundStation(ward.surroundings, ward.logbook, "ICU 1");
    REQUIRE_FALSE(made);
    CHECK(made.error().code == "trouble.bad_station");
    CHECK(made.error().weight == station::Problem::Weight::Input);
    CHECK_FALSE(std::filesystem::exists(ward.logbook.path));
}

TEST_CASE("A logbook that cannot be opened is another trouble than a wrong call", "[unit]") {
    Ward ward;
    const auto none = station::readWholeLog(ward.surroundings, ward.logbook);
    REQUIRE_FALSE(none);
    CHECK(none.error().code == "trouble.not_found");
    CHECK(none.error().weight == station::Problem::Weight::Logbook);
    const auto codeBeside = [&](const std::string& name) {
        ward.folder.write(name, "");
        const auto beside = station::readWholeLog(ward.surroundings, ward.logbook).error();
        CHECK(beside.notice.says.find(ward.folder.file(name).string()) != std::string::npos);
        return beside.code;
    };
    CHECK(codeBeside("ward.logbook.unfinished-7") == "trouble.not_finished");
    CHECK(codeBeside("ward.logbook.before-20260302T140000Z") == "trouble.put_aside");
    ward.folder.write("ward.logbook", "no logbook at all, but long enough to be taken for one");
    const auto other = station::readWholeLog(ward.surroundings, ward.logbook);
    REQUIRE_FALSE(other);
    CHECK(other.error().code == "trouble.not_a_logbook");
    CHECK(other.error().weight == station::Problem::Weight::Logbook);
}

TEST_CASE("A backup is the same log without a station, and replaces nothing", "[unit]") {
    Ward ward;
    ward.found();
    const auto target = ward.folder.file("copy.logbook");
    const auto copy = station::backUp(ward.surroundings, ward.logbook, target);
    REQUIRE(copy);
    CHECK(copy->heads.at("icu-1").seq == 2);
    CHECK(station::backUp(ward.surroundings, ward.logbook, target).error().code ==
          "trouble.exists");
    CHECK(station::backUp(ward.surroundings, ward.logbook, ward.folder.file("no/copy.logbook"))
              .error()
              .code == "file.no_folder");
    const auto log = station::readWholeLog(ward.surroundings, {target});
    REQUIRE(log);
    CHECK(log->log.records().size() == 2);
    CHECK_FALSE(log->ownStation);
    const station::LogbookFile restored{ward.folder.file("restored.logbook")};
    REQUIRE(station::restore(ward.surroundings, target, restored, "icu-2"));
    const auto again = station::readWholeLog(ward.surroundings, restored);
    REQUIRE(again);
    CHECK(store::headsOf(again->heads) == store::headsOf(log->heads));
    CHECK(again->ownStation == "icu-2");
}

TEST_CASE("What stands where the journal would be is told, and nothing waits for it", "[unit]") {
    Ward ward;
    ward.found();
    const auto journal = ward.folder.file("ward.logbook-journal");
    const std::vector<std::function<void()>> ways{
        [&] { std::filesystem::create_directory(journal); },
        [&] { std::filesystem::create_symlink(ward.folder.file("else"), journal); },
        [&] { REQUIRE(::mkfifo(journal.c_str(), S_IRWXU) == 0); }};
    for (const auto& way : ways) {
        way();
        for (const auto access : {station::Access::Read, station::Access::Write}) {
            const auto refused = station::openLogbook(ward.surroundings, ward.logbook, access);
            REQUIRE_FALSE(refused);
            CHECK(refused.error().code == "trouble.journal_in_way");
            CHECK(refused.error().weight == station::Problem::Weight::Logbook);
        }
        std::filesystem::remove(journal);
    }
    CHECK(station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write));
}

TEST_CASE("A journal that is not of the logbook is told, and left alone", "[unit]") {
    Ward ward;
    ward.found();
    const std::string magic("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8);
    const auto codeOf = [&](const std::string& bytes) {
        ward.folder.write("ward.logbook-journal", bytes);
        const auto refused =
            station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
        REQUIRE_FALSE(refused);
        CHECK(refused.error().weight == station::Problem::Weight::Logbook);
        CHECK((support::bytesOf(ward.folder.file("ward.logbook-journal")) == bytes));
        return refused.error().code;
    };
    CHECK(codeOf("a shopping list") == "trouble.journal_is_none");
    CHECK(codeOf(std::string(600, '\0') + std::string("mine\0\0\0\4\0\0\1\xA6", 12) + magic) ==
          "trouble.journal_names_file");
    // Of a database of no pages.
    CHECK(codeOf(magic + std::string(14, '\0') + std::string("\2\0\0\0\x10\0", 6) +
                 std::string(484, '\0')) == "trouble.journal_of_other_time");
    std::filesystem::remove(ward.folder.file("ward.logbook-journal"));
    ward.folder.write("mine", "");
    std::filesystem::create_hard_link(ward.folder.file("mine"),
                                      ward.folder.file("ward.logbook-journal"));
    CHECK(codeOf("") == "trouble.journal_two_names");
}

TEST_CASE("No logbook is made under a name that another takes for its own", "[unit]") {
    Ward ward;
    ward.found();
    for (const auto* ending : {"-journal", "-wal", "-shm", ".holder", ".backups"}) {
        const auto path = ward.folder.file("ward.logbook" + std::string(ending));
        const station::LogbookFile file{path};
        const auto codes = {
            station::foundStation(ward.surroundings, file, "icu-2").error().code,
            station::salvage(ward.surroundings, ward.logbook, path).error().code,
            station::restore(ward.surroundings, ward.logbook.path, file, "icu-2").error().code};
        for (const auto& code : codes) {
            CHECK(code == "file.side_name");
        }
        CHECK_FALSE(std::filesystem::exists(path));
    }
}
