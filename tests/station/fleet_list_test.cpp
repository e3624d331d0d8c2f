// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A fleet list is looked at against the log before anything is written, and its good units are
// taken together or not at all.
#include "station/fleet_list.h"

#include "station/import.h"
#include "station/ward.h"

#include <algorithm>
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

using support::utc;
using support::Ward;

namespace {

const std::string head = "serial,model,groups,features,commissioned,asset,label,location\n";

station::Result<station::FleetPreview> preview(Ward& ward, const std::string& rows,
                                               bool namesNoPatient = false) {
    return station::previewFleet(ward.surroundings, ward.logbook,
                                 {ward.folder.write("fleet.csv", head + rows), namesNoPatient});
}

station::FleetPreview seen(Ward& ward, const std::string& rows, bool namesNoPatient = false) {
    auto found = preview(ward, rows, namesNoPatient);
    REQUIRE(found);
    return *std::move(found);
}

// "groups unknown_group", of the one line that is refused.
std::vector<std::string> reasonsFor(Ward& ward, const std::string& row) {
    const auto found = seen(ward, row + "\n");
    CAPTURE(row);
    CHECK(found.good.empty());
    REQUIRE(found.refused.size() == 1);
    std::vector<std::string> reasons;
    for (const auto& reason : found.refused.front().reasons) {
        CHECK_FALSE(reason.sentence.says.empty());
        reasons.push_back(reason.column + " " + reason.code);
    }
    return reasons;
}

std::string exported(Ward& ward) {
    const auto records = station::exportRecords(ward.surroundings, ward.logbook, {});
    REQUIRE(records);
    return records->bytes;
}

// Whether another process finds the lock taken under which SQLite writes ("File Locking And
// Concurrency", 3.0: the reserved byte follows the pending one, at 2^30).
bool isLockedForOthers(const std::filesystem::path& logbook) {
    const pid_t other = ::fork();
    if (other == 0) {
        const int file = ::open(logbook.c_str(), O_RDWR);
        struct flock lock {F_WRLCK, SEEK_SET, (1 << 30) + 1, 1, 0};
        ::_exit(::fcntl(file, F_GETLK, &lock) == 0 && lock.l_type == F_UNLCK ? 0 : 1);
    }
    int status = -1;
    REQUIRE(::waitpid(other, &status, 0) == other);
    return status != 0;
}

const std::string twoUnits =
    "KB-0002,Larch 3,adult,,2026-03-02,A-2,Unit 2,Store\n"
    "KB-0003,Larch 3,adult,,2026-01-31,,,\n";

}  // namespace

TEST_CASE("A preview writes nothing and asks for no PIN", "[unit]") {
    Ward ward;
    ward.found();
    const auto before = ward.bytes();
    const auto found = seen(ward, twoUnits + "KB-0004,,adult,,2026-03-02,,,\n");
    CHECK(found.good.size() == 2);
    CHECK(found.refused.size() == 1);
    CHECK(found.refused.front().line == 4);
    CHECK(found.refused.front().serial == "KB-0004");
    CHECK((ward.bytes() == before));
}

TEST_CASE("What the log and the edition refuse", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    station::Entry entry{ward.as("mt"), "enrol", "KB-0009"};
    entry.body = station::enrolBody(
        {"Larch", {"adult"}, {}, *logbook::parseDay("2026-01-15"), {}, "A-9", {}, {}, {}, {}, {}});
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    using Reasons = std::vector<std::string>;
    CHECK(reasonsFor(ward, "KB-0001,Larch,adult,,2026-03-02,,,") ==
          Reasons{"serial enrolled_already"});
    CHECK(reasonsFor(ward, "KB-0002,Larch,adult,,2026-03-02,A-9,,") ==
          Reasons{"asset asset_taken"});
    CHECK(reasonsFor(ward, "KB-0002,Larch,adult,,2026-03-02,KB-0001,,") ==
          Reasons{"asset asset_taken"});
    CHECK(reasonsFor(ward, "A-9,Larch,adult,,2026-03-02,,,") == Reasons{"serial serial_taken"});
    CHECK(reasonsFor(ward, "KB-0002,Larch,adult;toddler,,2026-03-02,,,") ==
          Reasons{"groups unknown_group"});
    CHECK(reasonsFor(ward, "KB-0002,Larch,adult,co2,2026-03-02,,,") ==
          Reasons{"features no_features"});
    CHECK(reasonsFor(ward, "KB-0002,Larch,adult,,2026-03-03,,,") ==
          Reasons{"commissioned not_yet"});
    CHECK(reasonsFor(ward, "KB-0002,Larch,adult,,2026-03-02,,Mrs Harebell,MRN 4471203") ==
          Reasons{"label patient_text", "location patient_text"});
    CHECK(reasonsFor(ward, ",Larch,toddler,,soon,A-9,,") ==
          Reasons{"serial missing", "commissioned bad_day", "asset asset_taken",
                  "groups unknown_group"});
    CHECK(seen(ward, "KB-0002,Larch,adult,,2026-03-02,,Mrs Harebell,\n", true).good.size() == 1);
}

TEST_CASE("Today is a day of the department", "[unit]") {
    Ward ward;
    ward.found();
    ward.clock.moveTo(utc(2026, 3, 3, 5));  // the evening of the second in Chicago
    CHECK(reasonsFor(ward, "KB-0002,Larch,adult,,2026-03-03,,,").size() == 1);
    ward.clock.moveTo(utc(2026, 3, 3, 6));
    CHECK(seen(ward, "KB-0002,Larch,adult,,2026-03-03,,,\n").good.size() == 1);
}

TEST_CASE("The good units are taken as one batch in the order of the list", "[unit]") {
    Ward ward;
    ward.found();
    const auto found = seen(ward, twoUnits + "KB-0004,,adult,,2026-03-02,,,\n");
    const auto taken = station::takeFleet(ward.surroundings, ward.logbook, {ward.as("mt"), found});
    REQUIRE(taken);
    CHECK(taken->records ==
          std::vector<logbook::RecordName>{{"icu-1", 3}, {"icu-1", 4}});
    const auto bytes = exported(ward);
    CHECK(bytes.find(
              R"({"at":"2026-03-02T14:00:00Z","batch":"fleet list 2026-03-02T14:00:00Z",)"
              R"("body":{"asset":"A-2","commissioned":"2026-03-02","features":[],)"
              R"("groups":["adult"],"label":"Unit 2","location":"Store","model":"Larch 3"},)"
              R"("by":"mt","device":"KB-0002")") != std::string::npos);
    CHECK(bytes.find("KB-0004") == std::string::npos);
    const auto again = seen(ward, twoUnits);
    CHECK(again.good.empty());
    CHECK(again.refused.size() == 2);
}

TEST_CASE("Nothing is written without a signature, a good unit, or the role", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("rs", "biomed");
    const auto found = seen(ward, twoUnits);
    const auto before = ward.bytes();
    const auto refused = [&](const station::FleetTaking& taking) {
        const auto taken = station::takeFleet(ward.surroundings, ward.logbook, taking);
        REQUIRE_FALSE(taken);
        CHECK((ward.bytes() == before));
        return taken.error().code;
    };
    CHECK(refused({"mt", found}) == "sign_in.no_pin_given");
    CHECK(refused({"nobody", found}) == "sign_in.unknown");
    CHECK(refused({ward.as("mt"), {}}) == "fleet.nothing");
}

TEST_CASE("Who may not enrol takes no list", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("rs", "biomed");
    ward.folder.write("policy.toml", std::string(Ward::policy) + "enrol = [\"lead\"]\n");
    const auto rs = ward.as("rs");
    auto text = std::string(Ward::policy) + "enrol = [\"lead\"]\n";
    text.replace(text.find("edition = \"1\""), 13, "edition = \"2\"");
    REQUIRE(station::adopt(ward.surroundings, ward.logbook,
                           {ward.as("mt"), ward.folder.write("next.toml", text)}));
    const auto found = seen(ward, twoUnits);
    const auto before = ward.bytes();
    const auto taken = station::takeFleet(ward.surroundings, ward.logbook, {rs, found});
    REQUIRE_FALSE(taken);
    CHECK(taken.error().code == "refusal.roles");
    CHECK((ward.bytes() == before));
    CHECK(station::takeFleet(ward.surroundings, ward.logbook, {ward.as("mt"), found}));
}

TEST_CASE("What has changed since the preview is looked at again", "[unit]") {
    Ward ward;
    ward.found();
    const auto found = seen(ward, twoUnits);
    ward.enrol("KB-0003");
    const auto before = ward.bytes();
    const auto taken = station::takeFleet(ward.surroundings, ward.logbook, {ward.as("mt"), found});
    REQUIRE_FALSE(taken);
    CHECK(taken.error().code == "fleet.changed");
    REQUIRE(taken.error().details.size() == 1);
    CHECK(taken.error().details.front().starts_with("KB-0003: "));
    CHECK((ward.bytes() == before));
}

TEST_CASE("A retired unit begins afresh, and its asset number is free", "[unit]") {
    Ward ward;
    ward.found();
    const auto first = seen(ward, twoUnits);
    REQUIRE(station::takeFleet(ward.surroundings, ward.logbook, {ward.as("mt"), first}));
    station::Entry entry{ward.as("mt"), "retire", "KB-0002"};
    entry.body = {{"reason", "Worn"}};
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    const auto found = seen(ward,
                            "KB-0002,Larch 3,adult,,2026-03-02,,,\n"
                            "KB-0005,Larch 3,adult,,2026-03-02,A-2,,\n");
    REQUIRE(found.good.size() == 2);
    CHECK(found.good[0].remarks.size() == 1);
    CHECK(found.good[1].remarks.empty());
}

TEST_CASE("A clock that was set back hides no unit", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 2, 13));
    CHECK(reasonsFor(ward, "KB-0001,Larch,adult,,2026-03-02,,,") ==
          std::vector<std::string>{"serial enrolled_already"});
}

TEST_CASE("What is no list, and a log without an edition", "[unit]") {
    Ward ward;
    REQUIRE(station::foundStation(ward.surroundings, ward.logbook, "icu-1"));
    CHECK(preview(ward, twoUnits).error().code == "entry.no_edition");
    Ward other;
    other.found();
    const auto codeOf = [&](const std::filesystem::path& list) {
        return station::previewFleet(other.surroundings, other.logbook, {list}).error().code;
    };
    CHECK(codeOf(other.folder.file("none.csv")) == "file.not_found");
    CHECK(codeOf(other.folder.path()) == "file.not_a_file");
    CHECK(codeOf(other.folder.write("empty.csv", "")) == "fleet.bad_list");
    const auto bad = station::previewFleet(other.surroundings, other.logbook,
                                           {other.folder.write("bad.csv", "serial,serial\n")});
    REQUIRE_FALSE(bad);
    CHECK(bad.error().details.size() == 4);
}

TEST_CASE("A logbook that is taken for a list stays locked for whoever writes into it", "[unit]") {
    Ward ward;
    ward.found();
    const auto list = ward.folder.path() / "list.csv";
    std::filesystem::create_hard_link(ward.logbook.path, list);
    auto writing = station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
    REQUIRE(writing);
    std::vector<std::string> codes;
    bool isLocked = false;
    const auto none = writing->appendOwn(
        [&](const logbook::RecordName&) {
            for (const auto& path : {ward.logbook.path, list}) {
                const auto found =
                    station::previewFleet(ward.surroundings, ward.logbook, {path});
                codes.push_back(found ? "" : found.error().code);
            }
            isLocked = isLockedForOthers(ward.logbook.path);
            return std::vector<logbook::Record>{};
        },
        {"mt", ward.clock.now()});
    REQUIRE(none);
    CHECK(codes == std::vector<std::string>(2, "fleet.bad_list"));
    CHECK(isLocked);
    CHECK_FALSE(isLockedForOthers(ward.logbook.path));
}

TEST_CASE("One unit that a person states", "[unit]") {
    Ward ward;
    ward.found();
    station::NewUnit unit{"KB-0002", {}};
    unit.unit.model = "Larch 3";
    unit.unit.groups = {"toddler"};
    unit.unit.commissioned = *logbook::parseDay("2026-03-02");
    const auto reasons = station::lookOver(ward.surroundings, ward.logbook, unit);
    REQUIRE(reasons);
    REQUIRE(reasons->size() == 1);
    CHECK(reasons->front().column == "groups");
    const auto refused =
        station::enrolUnit(ward.surroundings, ward.logbook, ward.as("mt"), unit);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == "fleet.bad_unit");
    CHECK(refused.error().details.size() == 1);
    unit.unit.groups = {"adult"};
    const auto written =
        station::enrolUnit(ward.surroundings, ward.logbook, ward.as("mt"), unit);
    REQUIRE(written);
    CHECK(written->record == logbook::RecordName{"icu-1", 3});
    CHECK(station::enrolUnit(ward.surroundings, ward.logbook, ward.as("mt"), unit)
              .error()
              .code == "fleet.bad_unit");
}
