// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is read from valid lines, and the content that is kept of them.
#include "logbook/record_reader.h"

#include "sample_records.h"

#include <catch2/catch.hpp>

using namespace logbook;
using Texts = std::vector<std::string>;

namespace {

Record readOf(const std::string& line) {
    INFO(line);
    const auto record = readRecord(line);
    if (!record) {
        FAIL("fault at " << record.error().front().field << ": " << record.error().front().detail);
    }
    return *record;
}

template <class Read>
Read bodyOf(Kind kind) {
    const Record record = readOf(sample::lineOf(kind));
    CHECK(record.kind() == kind);
    return std::get<Read>(record.body);
}

}  // namespace

// The worked example of the data format: content and hash of this line are published with it.
TEST_CASE("The worked example has its content", "[reference]") {
    const Record record = readOf(
        R"({"station":"icu-1","seq":1,"at":"2026-03-02T14:00:00.000Z",)"
        R"("entered":"2026-03-02T14:00:05Z","by":"mt","device":"KB-0001","kind":"note",)"
        R"("body":{"text":"Größe 1","lot":null}})");
    CHECK(record.content ==
          R"({"at":"2026-03-02T14:00:00Z","body":{"text":"Größe 1"},"by":"mt","device":"KB-0001",)"
          R"("entered":"2026-03-02T14:00:05Z","kind":"note","seq":1,"station":"icu-1"})");
}

TEST_CASE("Every kind is read", "[exhaustive]") {
    for (int index = 0; index < kindCount; ++index) {
        const auto kind = static_cast<Kind>(index);
        INFO(kindName(kind));
        const std::string line = sample::lineOf(kind);
        const Record record = readOf(line);
        CHECK(record.kind() == kind);
        CHECK(record.content == line);
    }
}

TEST_CASE("The fields of every record are read", "[unit]") {
    std::string line = sample::lineOf(Kind::Note);
    for (const auto& [path, value] : std::vector<std::pair<const char*, const char*>>{
             {"entered", R"("2026-03-02T14:05:00.250Z")"},
             {"done_by", R"("ann")"},
             {"witness", R"("bo")"},
             {"form", R"("")"},
             {"batch", R"("b 1")"},
             {"moved_from", R"("icu-1/7")"},
             {"confirmed", "false"}}) {
        line = sample::with(line, path, value);
    }
    const Record record = readOf(line);
    CHECK(record.name == RecordName{"icu-1", 8});
    CHECK(record.at == parseInstant("2026-03-02T14:00:00Z"));
    CHECK(record.entered == parseInstant("2026-03-02T14:05:00.250Z"));
    CHECK(record.by == "mt");
    CHECK(record.device == "KB-0001");
    CHECK(record.doneBy == "ann");
    CHECK(record.witness == "bo");
    CHECK(record.form == "");
    CHECK(record.batch == "b 1");
    CHECK(record.movedFrom == "icu-1/7");
    CHECK_FALSE(record.confirmed);
}

TEST_CASE("Fields that may be left out are absent", "[unit]") {
    const Record record = readOf(sample::lineOf(Kind::Note));
    CHECK_FALSE(record.doneBy);
    CHECK_FALSE(record.witness);
    CHECK_FALSE(record.form);
    CHECK_FALSE(record.batch);
    CHECK_FALSE(record.movedFrom);
    CHECK(record.confirmed);
}

TEST_CASE("Null members fall away at every level, nulls in lists stay", "[unit]") {
    std::string line = sample::with(sample::lineOf(Kind::Note), "witness", "null");
    line = sample::with(line, "x", R"({"a":null,"b":[null,{"c":null,"d":{"e":null}}]})");
    CHECK(readOf(line).content == sample::with(sample::lineOf(Kind::Note), "x",
                                               R"({"b":[null,{"d":{}}]})"));
}

TEST_CASE("Zero milliseconds fall away where instants stand", "[unit]") {
    const char* zero = R"("2026-03-02T14:00:00.000Z")";
    const std::string note = sample::lineOf(Kind::Note);
    CHECK(readOf(sample::with(sample::with(note, "at", zero), "entered", zero)).content == note);

    const std::string waive = sample::lineOf(Kind::Waive);
    CHECK(readOf(sample::with(waive, "body.until", R"("2026-03-03T14:00:00.000Z")")).content ==
          waive);
    const std::string sign = sample::lineOf(Kind::Sign);
    CHECK(readOf(sample::with(sign, "body.known_at", R"("2026-03-01T08:00:00.000Z")")).content ==
          sign);

    const std::string elsewhere = sample::with(note, "body.text", zero);
    CHECK(readOf(elsewhere).content == elsewhere);
    const std::string unknown = sample::with(note, "seen", zero);
    CHECK(readOf(unknown).content == unknown);
}

TEST_CASE("Unknown fields are kept at every level and mean nothing", "[unit]") {
    std::string line = sample::with(sample::lineOf(Kind::Fit), "x", R"({"y":[1]})");
    line = sample::with(line, "body.x", "5");
    line = sample::with(line, "body.part.x", "[true]");
    const Record record = readOf(line);
    CHECK(record.content == line);
    CHECK_FALSE(std::get<body::Fit>(record.body).part.attributes.contains("x"));
}

TEST_CASE("A line and its parsed value give the same record", "[unit]") {
    const std::string line = sample::with(sample::lineOf(Kind::Check), "witness", "null");
    const auto value = json::parse(line);
    REQUIRE(value);
    CHECK(readRecord(*value)->content == readRecord(line)->content);
}

TEST_CASE("A department's kinds are read", "[unit]") {
    const auto adopt = bodyOf<body::Adopt>(Kind::Adopt);
    CHECK(adopt.edition == "2026-1");
    CHECK(adopt.text == "format = 1");

    const auto person = bodyOf<body::Person>(Kind::Person);
    CHECK(person.person == "mt");
    CHECK(person.name == "M. Thorn");
    CHECK(person.roles == Texts{"rt", "chief"});
    CHECK(person.until == parseDay("2026-12-31"));

    const auto sign = bodyOf<body::Sign>(Kind::Sign);
    CHECK(sign.scope == "month");
    CHECK(sign.month == "2026-02");
    CHECK(sign.knownAt == parseInstant("2026-03-01T08:00:00Z"));
    CHECK(sign.digest == "ab12");
}

TEST_CASE("A notice is read with what it matches", "[unit]") {
    const auto notice = bodyOf<body::Notice>(Kind::Notice);
    CHECK(notice.key == "n_7");
    CHECK(notice.title == "Valve may stick");
    CHECK(notice.action == NoticeAction::StopUse);
    CHECK(notice.cancelled);
    CHECK(notice.match.position == "valve");
    CHECK(notice.match.lots == Texts{"L1"});
    CHECK(notice.match.serials == Texts{"S1", "S2"});
    CHECK(notice.match.partModels == Texts{"Sorrel V"});
    CHECK(notice.match.deviceModels == Texts{"Larch 3"});
    CHECK(notice.match.devices == Texts{"KB-0001"});
    CHECK(notice.match.software == Texts{"1.0"});

    const auto bare = std::get<body::Notice>(
        readOf(sample::lineOf(Kind::Notice, R"({"key":"n","title":"","action":"inspect",
                                               "match":{"lots":[],"colour":7}})"))
            .body);
    CHECK_FALSE(bare.cancelled);
    CHECK(bare.match.lots == Texts{});
    CHECK_FALSE(bare.match.position);
    CHECK_FALSE(bare.match.serials);
}

TEST_CASE("An enrolment is read", "[unit]") {
    const auto enrol = bodyOf<body::Enrol>(Kind::Enrol);
    CHECK(enrol.model == "Larch 3");
    CHECK(enrol.groups == Texts{"adult", "pediatric"});
    CHECK(enrol.features == Texts{"co2"});
    CHECK(enrol.commissioned == parseDay("2025-12-13"));
    CHECK(enrol.label == "unit 24");
    CHECK(enrol.asset == "A-9");
    CHECK(enrol.maker == "Rowan Works");
    CHECK(enrol.udi == "(01)0");
    CHECK(enrol.location == "bay 1");
    CHECK(enrol.owner == "pool");
    CHECK(enrol.returnBy == "2027-01-31");
}

TEST_CASE("A fitted part is read as it is stated", "[unit]") {
    const auto fit = bodyOf<body::Fit>(Kind::Fit);
    CHECK(fit.position == "circuit");
    CHECK(fit.part.groups == Texts{"adult", "pediatric"});
    CHECK(fit.part.attributes == logbook::KeyMap<std::string>{
                                     {"serial", "C-1"},
                                     {"lot", ""},
                                     {"model", "Sorrel 22"},
                                     {"reuse", "reusable"},
                                     {"expires", "2027-01-31"},
                                     {"technology", "heated"}});

    const auto cleared = std::get<body::Fit>(
        readOf(sample::lineOf(Kind::Fit, R"({"position":"hme","part":{"groups":[],"reuse":"",
                                            "expires":"","model":null,"Not a key":"x"}})"))
            .body);
    CHECK(cleared.part.groups == Texts{});
    CHECK(cleared.part.attributes ==
          logbook::KeyMap<std::string>{{"reuse", ""}, {"expires", ""}});

    const auto bare = std::get<body::Fit>(
        readOf(sample::lineOf(Kind::Fit, R"({"position":"hme","part":{}})")).body);
    CHECK_FALSE(bare.part.groups);
    CHECK(bare.part.attributes.empty());
}

TEST_CASE("A check is read with measures and conditions", "[unit]") {
    const auto check = bodyOf<body::Check>(Kind::Check);
    CHECK(check.check == "leak");
    CHECK(check.outcome == Outcome::Pass);
    REQUIRE(check.measures.size() == 1);
    CHECK(check.measures.at("leak").value == 85.5);
    CHECK(check.measures.at("leak").unit == "mL/min");
    CHECK(check.conditions == Texts{"gas_supply", "mains_power"});

    const auto bare = std::get<body::Check>(
        readOf(sample::lineOf(Kind::Check, R"({"check":"leak","outcome":"incomplete"})")).body);
    CHECK(bare.outcome == Outcome::Incomplete);
    CHECK(bare.measures.empty());
    CHECK(bare.conditions.empty());
}

TEST_CASE("Reprocessing is of a device's positions or of loose parts", "[unit]") {
    const auto device = bodyOf<body::Reprocess>(Kind::Reprocess);
    CHECK(device.positions == Texts{"circuit"});
    CHECK(device.parts.empty());
    CHECK(device.level == Level::High);
    CHECK(device.load == "17");

    const std::string line = sample::with(
        sample::lineOf(Kind::Reprocess,
                       R"({"parts":[{"position":"circuit","serial":"C-1","tray":2}],
                           "positions":5,"level":"sterile"})"),
        "device", R"("")");
    const auto loose = std::get<body::Reprocess>(readOf(line).body);
    CHECK(loose.positions.empty());
    REQUIRE(loose.parts.size() == 1);
    CHECK(loose.parts[0].position == "circuit");
    CHECK(loose.parts[0].serial == "C-1");
    CHECK(loose.level == Level::Sterile);
    CHECK_FALSE(loose.load);
}

TEST_CASE("A use is read", "[unit]") {
    const auto start = bodyOf<body::UseStart>(Kind::UseStart);
    CHECK(start.group == "adult");
    CHECK(start.location == "bay 1");
    CHECK(start.precautions == true);
    CHECK(start.emergency);
    CHECK(start.reason == "arrest");
    CHECK(start.samePatient);

    const auto bare =
        std::get<body::UseStart>(readOf(sample::lineOf(Kind::UseStart, "{}")).body);
    CHECK_FALSE(bare.group);
    CHECK_FALSE(bare.precautions);
    CHECK_FALSE(bare.emergency);
    CHECK_FALSE(bare.samePatient);
    CHECK(bodyOf<body::UsePause>(Kind::UsePause).reason == "transport");
}

TEST_CASE("Faults, holds, notices done and services are read", "[unit]") {
    const auto fault = bodyOf<body::Fault>(Kind::Fault);
    CHECK(fault.code == "battery_worn");
    CHECK(fault.blocking == false);
    CHECK(fault.text == "20 min left");
    CHECK(bodyOf<body::Clear>(Kind::Clear).code == "battery_worn");
    CHECK(bodyOf<body::Alarm>(Kind::Alarm).code == "flow_lost");
    CHECK(bodyOf<body::Withdraw>(Kind::Withdraw).hold == "incident");
    CHECK(bodyOf<body::Withdraw>(Kind::Withdraw).reason == "to be looked at");
    CHECK(bodyOf<body::Release>(Kind::Release).hold == "incident");
    CHECK(bodyOf<body::NoticeDone>(Kind::NoticeDone).key == "n_7");
    CHECK(bodyOf<body::NoticeDone>(Kind::NoticeDone).text == "valve replaced");
    CHECK(bodyOf<body::Service>(Kind::Service).service == "maintenance");
    CHECK(bodyOf<body::Service>(Kind::Service).outcome == Outcome::NotLocated);

    const auto waive = bodyOf<body::Waive>(Kind::Waive);
    CHECK(waive.finding == "due");
    CHECK(waive.subject == "leak");
    CHECK(waive.until == parseInstant("2026-03-03T14:00:00Z"));
    CHECK(waive.reason == "surge");
}

TEST_CASE("The short bodies are read", "[unit]") {
    CHECK(bodyOf<body::Retire>(Kind::Retire).reason == "sold");
    CHECK(bodyOf<body::Group>(Kind::Group).group == "adult");
    CHECK(bodyOf<body::Power>(Kind::Power).on);
    CHECK(bodyOf<body::Move>(Kind::Move).location == "bay 2");
    CHECK(bodyOf<body::Sighted>(Kind::Sighted).location == "bay 3");
    CHECK(bodyOf<body::Software>(Kind::Software).version == "2.1");
    CHECK(bodyOf<body::Remove>(Kind::Remove).position == "hme");
    CHECK(bodyOf<body::Soil>(Kind::Soil).reason == "splash");
    CHECK(bodyOf<body::Note>(Kind::Note).text == "Größe 1");
    CHECK(bodyOf<body::Review>(Kind::Review).target == RecordName{"icu-1", 7});
    CHECK(bodyOf<body::Review>(Kind::Review).disposition == "confirmed");
    CHECK(bodyOf<body::Review>(Kind::Review).text == "Mine.");
    CHECK(bodyOf<body::Strike>(Kind::Strike).target == RecordName{"icu-1", 7});
    CHECK(bodyOf<body::Strike>(Kind::Strike).reason == "wrong unit");
}

TEST_CASE("Free text may be empty", "[unit]") {
    CHECK(readRecord(sample::lineOf(Kind::Note, R"({"text":""})")));
    CHECK(readRecord(sample::lineOf(Kind::Withdraw, R"({"hold":"incident","reason":""})")));
    CHECK(readRecord(sample::with(sample::lineOf(Kind::Person), "body.name", R"("")")));
}

TEST_CASE("A strike has a device or none", "[unit]") {
    CHECK(readRecord(sample::lineOf(Kind::Strike)));
    CHECK(readRecord(sample::with(sample::lineOf(Kind::Strike), "device", R"("")")));
}

TEST_CASE("A line of up to 1 MiB is read", "[unit]") {
    const std::string line = sample::lineOf(Kind::Note);
    constexpr std::size_t longest = 1048576;
    CHECK(readRecord(line + std::string(longest - line.size(), ' ')));
    CHECK_FALSE(readRecord(line + std::string(longest - line.size() + 1, ' ')));
}
