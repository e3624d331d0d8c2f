// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first start of a station, PINs, and the way back in.
#include "station/people.h"

#include "station/import.h"
#include "station/ward.h"

#include <set>

using support::secretOf;
using support::testPin;
using support::Ward;

namespace {

constexpr std::string_view strictPolicy =
    "format = 1\ntitle = \"Strict\"\nedition = \"1\"\ntime_zone = \"America/Chicago\"\n"
    "[groups.adult]\n[checks.leak]\ntakes = \"PT2M\"\n"
    "[holds.incident]\nrelease_by = [\"risk_manager\"]\n"
    "[authority]\nadopt = [\"director\"]\nperson = [\"lead\"]\nclear = [\"biomed\"]\n"
    "strike = [\"lead\"]\n";

station::AskPin typing(std::string_view pin) {
    return [pin](const std::string&) { return std::optional(secretOf(pin)); };
}

station::FirstStart startOf(const Ward& ward) {
    return {"icu-1", "mt", "Morgan Thistle",
            station::Adoption{"mt", ward.folder.write("policy.toml", strictPolicy)},
            typing(testPin)};
}

std::string codeOfBeginning(Ward& ward, const station::FirstStart& start) {
    const auto begun = station::begin(ward.surroundings, ward.logbook, start);
    return begun ? "" : begun.error().code;
}

void makeFile(Ward& ward) {
    REQUIRE(station::openLogbook(ward.surroundings, ward.logbook, station::Access::Create));
}

station::Writer signedIn(const Ward& ward, const std::string& who, std::string_view pin) {
    const auto session = station::signIn(ward.surroundings, ward.logbook, who, secretOf(pin));
    REQUIRE(session);
    return *session;
}

std::string codeOfSetting(Ward& ward, const station::Writer& by, const std::string& person,
                          std::string_view pin) {
    const auto set = station::setPin(ward.surroundings, ward.logbook, {by, person, typing(pin)});
    return set ? "" : set.error().code;
}

}  // namespace

TEST_CASE("At the first start the rules come first, then the manager with every role", "[unit]") {
    Ward ward;
    makeFile(ward);
    const auto begun = station::begin(ward.surroundings, ward.logbook, startOf(ward));
    REQUIRE(begun);
    CHECK(begun->name == "Morgan Thistle");
    CHECK(begun->edition == "1");
    CHECK(begun->code.text().size() == 24);
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    const auto records = logbook->records()->records;
    REQUIRE(records.size() == 2);
    CHECK(records[0].kind() == logbook::Kind::Adopt);
    CHECK(records[1].content.find(R"("roles":["biomed","director","lead"])") !=
          std::string::npos);
    CHECK((records[0].confirmed && records[1].confirmed));
    CHECK(logbook->station().value() == std::optional<std::string>("icu-1"));
    const auto session =
        station::signIn(ward.surroundings, ward.logbook, "mt", secretOf(testPin));
    REQUIRE(session);
    CHECK(session->isManager());
    CHECK(session->name() == "Morgan Thistle");
}

TEST_CASE("A first start that lacks something changes nothing", "[unit]") {
    Ward ward;
    makeFile(ward);
    const auto before = ward.bytes();
    auto start = startOf(ward);
    start.adoption.reset();
    CHECK(codeOfBeginning(ward, start) == "people.no_edition");
    start = startOf(ward);
    start.name.reset();
    CHECK(codeOfBeginning(ward, start) == "people.no_name");
    start = startOf(ward);
    start.askPin = {};
    CHECK(codeOfBeginning(ward, start) == "pin.not_given");
    start.askPin = typing("12345");
    CHECK(codeOfBeginning(ward, start) == "pin.too_short");
    start = startOf(ward);
    start.station = "ICU 1";
    CHECK(codeOfBeginning(ward, start) == "entry.bad_record");
    start = startOf(ward);
    start.adoption->rulebook = ward.folder.write("faulty.toml", "format = 1\n");
    CHECK(codeOfBeginning(ward, start) == "adopt.bad_rulebook");
    CHECK((ward.bytes() == before));
    REQUIRE(codeOfBeginning(ward, startOf(ward)).empty());
    CHECK(codeOfBeginning(ward, startOf(ward)) == "people.begun");
    start = startOf(ward);
    start.station = "icu-2";
    CHECK(codeOfBeginning(ward, start) == "trouble.station_set");
}

TEST_CASE("A second station is begun by a manager whom the log knows, and by no other", "[unit]") {
    Ward first;
    makeFile(first);
    REQUIRE(codeOfBeginning(first, startOf(first)).empty());
    station::Entry entry{signedIn(first, "mt", testPin), "person"};
    entry.body = Ward::personBody("rs", "biomed");
    REQUIRE(station::writeEntry(first.surroundings, first.logbook, entry));
    const auto all = station::exportRecords(first.surroundings, first.logbook, {});
    Ward second;
    REQUIRE(station::importFiles(second.surroundings, second.logbook,
                                 {second.folder.write("all.jsonl", all->bytes)}));
    auto start = startOf(second);
    start.station = "er-2";
    CHECK(codeOfBeginning(second, start) == "people.edition_is_there");
    start.adoption.reset();
    start.manager = "rs";
    CHECK(codeOfBeginning(second, start) == "people.not_manager");
    start.manager = "nobody";
    CHECK(codeOfBeginning(second, start) == "people.not_manager");
    start.manager = "mt";
    start.station = "icu-1";
    CHECK(codeOfBeginning(second, start) == "trouble.station_taken");
    start.station = "er-2";
    const auto begun = station::begin(second.surroundings, second.logbook, start);
    REQUIRE(begun);
    CHECK(begun->records.empty());
    CHECK(begun->name == "Morgan Thistle");
    signedIn(second, "mt", testPin);
}

TEST_CASE("A PIN is of six digits that neither repeat one nor follow one another", "[unit]") {
    Ward ward;
    makeFile(ward);
    REQUIRE(codeOfBeginning(ward, startOf(ward)).empty());
    const auto mt = signedIn(ward, "mt", testPin);
    for (const auto* pin : {"", "1", "40295"}) {
        CHECK(codeOfSetting(ward, mt, "mt", pin) == "pin.too_short");
    }
    for (const auto* pin : {"40295a", "402 951", "-402951", "4029.1", "\xD9\xA1\xD9\xA2\xD9\xA3"}) {
        CHECK(codeOfSetting(ward, mt, "mt", pin) == "pin.not_digits");
    }
    for (const auto* pin : {"000000", "7777777"}) {
        CHECK(codeOfSetting(ward, mt, "mt", pin) == "pin.all_equal");
    }
    for (const auto* pin : {"123456", "987654", "789012", "210987", "0123456789"}) {
        CHECK(codeOfSetting(ward, mt, "mt", pin) == "pin.sequence");
    }
    signedIn(ward, "mt", testPin);
    for (const auto* pin : {"123457", "112233", "000001", "402951402951", "765432101"}) {
        CHECK(codeOfSetting(ward, mt, "mt", pin).empty());
        signedIn(ward, "mt", pin);
    }
}

TEST_CASE("Everybody sets their own PIN, a manager anyone's", "[unit]") {
    Ward ward;
    makeFile(ward);
    REQUIRE(codeOfBeginning(ward, startOf(ward)).empty());
    const auto mt = signedIn(ward, "mt", testPin);
    for (const auto* person : {"rs", "bk"}) {
        station::Entry entry{mt, "person"};
        entry.body = Ward::personBody(person, "biomed");
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
        CHECK(codeOfSetting(ward, mt, person, "731905").empty());
    }
    CHECK(codeOfSetting(ward, mt, "nobody", "731905") == "people.unknown");
    const auto rs = signedIn(ward, "rs", "731905");
    CHECK(codeOfSetting(ward, rs, "rs", "558203").empty());
    CHECK(codeOfSetting(ward, rs, "bk", "558203") == "people.not_manager");
    CHECK(codeOfSetting(ward, rs, "mt", "558203") == "people.not_manager");
    CHECK(codeOfSetting(ward, "mt", "mt", "558203") == "sign_in.no_pin_given");
    signedIn(ward, "rs", "558203");
    signedIn(ward, "bk", "731905");
    signedIn(ward, "mt", testPin);
    CHECK(station::setBadge(ward.surroundings, ward.logbook, {rs, "rs", "0042"}).error().code ==
          "people.not_manager");
}

TEST_CASE("The recovery code lets a manager back in once, however it is typed", "[unit]") {
    Ward ward;
    makeFile(ward);
    const auto begun = station::begin(ward.surroundings, ward.logbook, startOf(ward));
    REQUIRE(begun);
    std::string typed;
    for (const char letter : begun->code.text()) {
        typed += letter == '-' ? ' ' : letter == '0' ? 'o' : letter == '1' ? 'l'
                                     : letter >= 'A' ? static_cast<char>(letter + 32) : letter;
    }
    const auto codeOf = [&](const std::string& person, std::string_view code,
                            std::string_view pin) {
        const auto done = station::recover(ward.surroundings, ward.logbook,
                                           {person, typing(code), typing(pin)});
        return done ? "" : done.error().code;
    };
    CHECK(codeOf("rs", typed, "731905") == "people.not_manager");
    CHECK(codeOf("mt", typed, "111111") == "pin.all_equal");
    CHECK(codeOf("mt", "AAAA-AAAA-AAAA-AAAA-AAAA", "731905") == "people.wrong_code");
    CHECK(codeOf("mt", typed, "731905") == "people.code_waiting");
    ward.clock.advance(logbook::Duration{1000});
    CHECK(codeOf("mt", typed, "731905") == "");
    signedIn(ward, "mt", "731905");
    CHECK(codeOf("mt", typed, "558203") == "people.wrong_code");
}

TEST_CASE("A manager gets a new recovery code, and the old one is worth nothing", "[unit]") {
    Ward ward;
    makeFile(ward);
    const auto begun = station::begin(ward.surroundings, ward.logbook, startOf(ward));
    REQUIRE(begun);
    const auto mt = signedIn(ward, "mt", testPin);
    station::Entry entry{mt, "person"};
    entry.body = Ward::personBody("rs", "biomed");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    REQUIRE(codeOfSetting(ward, mt, "rs", "731905").empty());
    const auto rs = signedIn(ward, "rs", "731905");
    CHECK(station::renewCode(ward.surroundings, ward.logbook, rs).error().code ==
          "people.not_manager");
    const auto code = station::renewCode(ward.surroundings, ward.logbook, mt);
    REQUIRE(code);
    const auto recovers = [&](const station::Secret& typed) {
        return station::recover(ward.surroundings, ward.logbook,
                                {"mt", typing(typed.text()), typing("558203")})
            .has_value();
    };
    CHECK_FALSE(recovers(begun->code));
    ward.clock.advance(logbook::Duration{1000});
    CHECK(recovers(*code));
}

TEST_CASE("Codes differ, and have no letter that is taken for another", "[unit]") {
    std::set<std::string> codes;
    for (int times = 0; times < 50; ++times) {
        const auto code = station::makeCode();
        codes.emplace(code.text());
        CHECK(code.text().find_first_of("ILOU") == std::string::npos);
        CHECK(station::codeMeant(code).isSame(code));
    }
    CHECK(codes.size() == 50);
}
