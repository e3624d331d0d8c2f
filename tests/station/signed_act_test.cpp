// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Acts that others get in between: what they write while a PIN is asked for is judged, and by a
// clock that was set back nobody may write what they may not write now.
#include "station/signed_act.h"

#include "station/correction.h"
#include "station/people.h"
#include "station/ward.h"

using support::secretOf;
using support::testPin;
using support::utc;
using support::Ward;

namespace {

namespace json = logbook::json;

std::vector<logbook::Record> recordsOf(const Ward& ward) {
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    REQUIRE(logbook);
    return logbook->records()->records;
}

// Types that PIN, after something has happened.
station::AskPin after(std::function<void()> happens, std::string_view pin = testPin) {
    return [happens = std::move(happens), pin](const std::string&) {
        happens();
        return std::optional(secretOf(pin));
    };
}

station::Writer asked(const std::string& who, station::AskPin ask) {
    station::Writer writer(who);
    writer.ask = std::move(ask);
    return writer;
}

void setRole(Ward& ward, const std::string& person, const std::string& role) {
    station::Entry entry{ward.as("mt"), "person"};
    entry.body = Ward::personBody(person, role);
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

std::string codeOf(Ward& ward, const station::Entry& entry) {
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    return written ? "" : written.error().code;
}

station::Entry clearing(station::Writer by) {
    return {std::move(by), "clear", "KB-0001", {{"code", "screen"}}};
}

// In the middle of an act a verify elsewhere finds pages that are not whole.
void noteDamagedPages(Ward& ward) {
    auto logbook = station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
    REQUIRE(logbook);
    auto report = logbook->verify();
    REQUIRE(report);
    report->integrity.emplace_back("Freelist: 2nd reference to page 90");
    REQUIRE(logbook->noteVerified(*report, {"mt", ward.clock.now()}));
}

void leave(Ward& ward, const std::string& person) {
    station::Entry entry{ward.as("mt"), "person"};
    entry.body = Ward::personBody(person, "biomed");
    entry.body.emplace_back("until", "2026-02-28");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

constexpr std::string_view strictPolicy =
    "format = 1\ntitle = \"Strict\"\nedition = \"1\"\ntime_zone = \"America/Chicago\"\n"
    "[groups.adult]\n[checks.leak]\ntakes = \"PT2M\"\n[authority]\nperson = [\"lead\"]\n";

station::FirstStart startOf(const Ward& ward, const std::string& manager, station::AskPin ask) {
    return {"icu-1", manager, "Morgan Thistle",
            station::Adoption{manager, ward.folder.write("policy.toml", strictPolicy)},
            std::move(ask)};
}

}  // namespace

TEST_CASE("Of two transfers of one entry made at once one is refused", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    REQUIRE(ward.check("KB-0001", "pass"));
    const logbook::RecordName entry = recordsOf(ward).back().name;
    const auto transfer = [&](station::Writer by) {
        const auto moved = station::moveToUnit(ward.surroundings, ward.logbook,
                                               {std::move(by), entry, false, "Wrong unit"},
                                               "KB-0002");
        return moved ? "" : moved.error().code;
    };
    int times = 0;
    CHECK(transfer(asked("mt", after([&] {
        ++times;
        CHECK(transfer(ward.as("mt")) == "");
    }))) == "entry.struck_already");
    CHECK(times == 1);
    CHECK(recordsOf(ward).size() == static_cast<std::size_t>(entry.seq) + 2);
}

TEST_CASE("An entry is judged by the roles that its writer has once the PIN is typed", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("rs", "biomed");
    ward.as("rs");
    ward.enrol("KB-0001");
    CHECK(codeOf(ward, clearing(asked("rs", after([&] { setRole(ward, "rs", "visitor"); })))) ==
          "refusal.roles");
    CHECK(codeOf(ward, clearing(asked("rs", after([&] { setRole(ward, "rs", "biomed"); })))) ==
          "");
}

TEST_CASE("What must not wait is taken though its writer left while the PIN was typed", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("rs", "biomed");
    ward.as("rs");
    ward.enrol("KB-0001");
    REQUIRE(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
    auto leaving = asked("rs", after([&] { leave(ward, "rs"); }));
    leaving.offered = true;
    const auto ended =
        station::writeEntry(ward.surroundings, ward.logbook, {leaving, "use_end", "KB-0001"});
    REQUIRE(ended);
    CHECK_FALSE(ended->confirmed);
    CHECK_FALSE(ended->byKnown);
    CHECK(recordsOf(ward).back().by == "rs");
    // As it is where they had left before.
    const auto later =
        station::writeEntry(ward.surroundings, ward.logbook, {leaving, "use_start", "KB-0001"});
    REQUIRE(later);
    CHECK(later->warnings.front() == ended->warnings.front());
    leave(ward, "rs");
    ward.person("rs", "biomed");
    const auto all = recordsOf(ward).size();
    CHECK(codeOf(ward, {leaving, "note", "KB-0001", {{"text", "Seen"}}}) == "sign_in.unknown");
    CHECK(recordsOf(ward).size() == all + 1);
}

TEST_CASE("What can wait is not written once others have found damaged pages", "[fault]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto all = recordsOf(ward).size();
    int times = 0;
    const auto writer = asked("mt", after([&] {
        ++times;
        noteDamagedPages(ward);
    }));
    CHECK(codeOf(ward, {writer, "note", "KB-0001", {{"text", "Seen"}}}) ==
          "trouble.pages_damaged");
    CHECK(recordsOf(ward).size() == all);
    // From then on nobody is asked for a PIN in vain.
    CHECK(codeOf(ward, {writer, "note", "KB-0001", {{"text", "Seen"}}}) ==
          "trouble.pages_damaged");
    CHECK(times == 1);
    CHECK(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
    CHECK(recordsOf(ward).size() == all + 1);
}

TEST_CASE("Whoever is no manager any more when all is typed sets nobody's PIN", "[unit]") {
    Ward ward;
    REQUIRE(station::openLogbook(ward.surroundings, ward.logbook, station::Access::Create));
    REQUIRE(station::begin(ward.surroundings, ward.logbook, startOf(ward, "mt", after([] {}))));
    const auto session =
        station::signIn(ward.surroundings, ward.logbook, "mt", secretOf(testPin));
    REQUIRE(session);
    ward.sessions.emplace("mt", *session);
    setRole(ward, "m2", "lead");
    const auto set = station::setPin(
        ward.surroundings, ward.logbook,
        {ward.as("m2"), "mt", after([&] { setRole(ward, "m2", "visitor"); }, "731905")});
    REQUIRE_FALSE(set);
    CHECK(set.error().code == "people.not_manager");
    CHECK(station::signIn(ward.surroundings, ward.logbook, "mt", secretOf(testPin)));
}

TEST_CASE("Of two first starts at once the second leaves nothing behind", "[unit]") {
    Ward ward;
    REQUIRE(station::openLogbook(ward.surroundings, ward.logbook, station::Access::Create));
    const auto held = station::begin(
        ward.surroundings, ward.logbook, startOf(ward, "rs", after([&] {
            CHECK(station::begin(ward.surroundings, ward.logbook,
                                 startOf(ward, "mt", after([] {}))));
        })));
    REQUIRE_FALSE(held);
    CHECK(recordsOf(ward).size() == 2);
    CHECK(recordsOf(ward).back().by == "mt");
    CHECK_FALSE(station::signIn(ward.surroundings, ward.logbook, "rs", secretOf(testPin)));
}

TEST_CASE("A PIN typed at a question put long ago waits as any other does", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto tried = [&](std::string_view pin) {
        const auto session = station::signIn(ward.surroundings, ward.logbook, "mt", secretOf(pin));
        return session ? "" : session.error().code;
    };
    const auto meanwhile = [&] {
        for (int times = 0; times < 3; ++times) {
            ward.clock.advance(logbook::Duration{60'000});
            CHECK(tried("000001") == "sign_in.wrong");
        }
    };
    station::Entry note{asked("mt", after(meanwhile)), "note", "KB-0001", {{"text", "Seen"}}};
    CHECK(codeOf(ward, note) == "sign_in.waiting");
    ward.clock.advance(logbook::Duration{3000});
    CHECK(tried(testPin) == "sign_in.waiting");
    ward.clock.advance(logbook::Duration{1000});
    CHECK(tried(testPin) == "");
}

TEST_CASE("By a clock that was set back nobody gets a role back", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("rs", "biomed");
    ward.enrol("KB-0001");
    const auto robin = ward.as("rs");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    CHECK(codeOf(ward, clearing(robin)) == "");
    ward.clock.moveTo(utc(2026, 3, 2, 16));
    setRole(ward, "rs", "visitor");
    ward.clock.moveTo(utc(2026, 3, 2, 15, 30));
    CHECK(codeOf(ward, clearing(robin)) == "refusal.roles");
    // Nor is a role that came later said to be missing: it is the clock that is wrong.
    ward.clock.moveTo(utc(2026, 3, 2, 17));
    setRole(ward, "rs", "biomed");
    ward.clock.moveTo(utc(2026, 3, 2, 16, 30));
    CHECK(codeOf(ward, clearing(robin)) == "entry.clock_behind");
    ward.clock.moveTo(utc(2026, 3, 2, 17));
    CHECK(codeOf(ward, clearing(robin)) == "");
}

TEST_CASE("One entry by a clock far ahead shuts nobody out", "[unit]") {
    Ward ward;
    ward.clock.startComputer("one");
    ward.found();
    ward.enrol("KB-0001");
    station::Entry entry{ward.as("mt"), "person"};
    entry.body = Ward::personBody("rs", "biomed");
    entry.body.emplace_back("until", "2026-03-09");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    const auto robin = ward.as("rs");
    const auto now = ward.clock.now();
    const auto ahead = [&](const station::Entry& far) {
        ward.clock.set(utc(2031, 3, 2, 15));
        const auto written = station::writeEntry(ward.surroundings, ward.logbook, far);
        REQUIRE(written);
        CHECK(written->warnings.size() == 1);
        ward.clock.set(now);
    };
    const auto isIn = [&] {
        return station::signIn(ward.surroundings, ward.logbook, "rs", secretOf(testPin))
            .has_value();
    };
    ahead({"mt", "soil", "KB-0001", {{"reason", "Splash"}}});
    CHECK(isIn());
    // Nor one that was signed, as long as nobody stood by that clock.
    ahead({ward.as("mt"), "note", "KB-0001", {{"text", "Seen"}}});
    ahead({ward.as("mt"), "note", "KB-0001", {{"text", "Seen again"}}});
    CHECK(isIn());
    ward.clock.moveTo(utc(2026, 3, 11, 15));
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook,
                                {ward.as("mt"), "note", "KB-0001", {{"text", "Later"}}}));
    ward.clock.set(now);
    CHECK_FALSE(isIn());
}

TEST_CASE("A correction and a confirmation note the clock, and a first start doubts it", "[unit]") {
    Ward ward;
    ward.clock.startComputer("one");
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    const auto settings = [&] {
        const auto logbook =
            station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
        return *logbook->settings();
    };
    const auto before = settings();
    ward.clock.set(ward.clock.now() + logbook::Duration{60'000});
    REQUIRE(station::strikeTogether(ward.surroundings, ward.logbook,
                                    {ward.as("mt"), recordsOf(ward).back().name, false, "Wrong"}));
    CHECK_FALSE(settings() == before);
}
