// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Signing in at a station: who is let in, what never waits, and the word of its people later.
#include "station/sign_in.h"

#include "station/confirmation.h"
#include "station/people.h"
#include "station/ward.h"

using support::secretOf;
using support::testPin;
using support::utc;
using support::Ward;

namespace {

namespace json = logbook::json;

logbook::Record lastRecord(const Ward& ward) {
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    REQUIRE(logbook);
    return logbook->records()->records.back();
}

std::string codeOfSigning(const Ward& ward, const std::string& who, std::string_view pin) {
    const auto session = station::signIn(ward.surroundings, ward.logbook, who, secretOf(pin));
    return session ? "" : session.error().code;
}

// Asks with that PIN, and says how often it was asked.
station::Writer asking(const std::string& who, std::string_view pin, int* asked = nullptr) {
    station::Writer writer(who);
    writer.ask = [=](const std::string&) {
        if (asked != nullptr) {
            ++*asked;
        }
        return std::optional(secretOf(pin));
    };
    return writer;
}

station::Entry soiled(station::Writer by) {
    station::Entry entry{std::move(by), "soil", "KB-0001"};
    entry.body = {{"reason", "Splash"}};
    return entry;
}

}  // namespace

TEST_CASE("A person known to the log signs in with their PIN", "[unit]") {
    Ward ward;
    ward.found();
    const auto session =
        station::signIn(ward.surroundings, ward.logbook, "mt", secretOf(testPin));
    REQUIRE(session);
    CHECK(session->person() == "mt");
    CHECK(session->since() == ward.clock.now());
    CHECK(session->isManager());
    CHECK(codeOfSigning(ward, "rs", testPin) == "sign_in.unknown");
    ward.person("rs", "biomed");
    CHECK(codeOfSigning(ward, "rs", testPin) == "sign_in.no_pin_here");
    CHECK(codeOfSigning(ward, "mt", "402952") == "sign_in.wrong");
    CHECK(codeOfSigning(ward, "mt", testPin) == "sign_in.waiting");
    ward.clock.advance(logbook::Duration{1000});
    CHECK(codeOfSigning(ward, "mt", testPin) == "");
}

TEST_CASE("Ten wrong PINs lock, and a manager unlocks", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("rs", "biomed");
    const auto robin = ward.as("rs");
    for (int times = 0; times < 10; ++times) {
        CHECK(codeOfSigning(ward, "rs", "000001") ==
              (times < 9 ? "sign_in.wrong" : "sign_in.locked"));
        ward.clock.advance(logbook::Duration{60'000});
    }
    CHECK(codeOfSigning(ward, "rs", testPin) == "sign_in.locked");
    const auto newPin = [](const std::string&) { return std::optional(secretOf("731905")); };
    // A manager is one who may write `person`; this edition lets everybody do that.
    REQUIRE(station::setPin(ward.surroundings, ward.logbook, {ward.as("mt"), "rs", newPin}));
    CHECK(codeOfSigning(ward, "rs", "731905") == "");
}

TEST_CASE("Who is past their last day is let in no more, whatever the clock says", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    station::Entry entry{ward.as("mt"), "person"};
    entry.body = Ward::personBody("rs", "biomed");
    entry.body.emplace_back("until", "2026-03-03");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    const auto robin = ward.as("rs");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, soiled(robin)));
    ward.clock.moveTo(utc(2026, 3, 4, 7));
    CHECK(codeOfSigning(ward, "rs", testPin) == "sign_in.unknown");
    entry = {robin, "note", "KB-0001"};
    entry.body = {{"text", "Seen"}};
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry).error().code ==
          "sign_in.unknown");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, soiled(ward.as("mt"))));
    ward.clock.moveTo(utc(2026, 3, 3, 7));
    CHECK(codeOfSigning(ward, "rs", testPin) == "sign_in.unknown");
}

TEST_CASE("A session is for the logbook at which it was made", "[unit]") {
    Ward ward;
    Ward other;
    ward.found();
    other.found();
    station::Entry entry{ward.as("mt"), "note", "KB-0001"};
    entry.body = {{"text", "Seen"}};
    CHECK(station::writeEntry(other.surroundings, other.logbook, entry).error().code ==
          "sign_in.unknown");
}

TEST_CASE("A PIN is asked for only where it can help", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("rs", "biomed");
    int asked = 0;
    station::Entry entry{asking("nobody", testPin, &asked), "note", "KB-0001"};
    entry.body = {{"text", "Seen"}};
    const auto codeOf = [&] {
        const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
        return written ? "" : written.error().code;
    };
    CHECK(codeOf() == "sign_in.unknown");
    entry.by = asking("rs", testPin, &asked);
    CHECK(codeOf() == "sign_in.no_pin_here");
    entry.by = asking("mt", testPin, &asked);
    entry.kind = "levitate";
    CHECK(codeOf() == "entry.bad_record");
    CHECK(asked == 0);
    entry.kind = "note";
    CHECK(codeOf() == "");
    CHECK(asked == 1);
    CHECK(lastRecord(ward).confirmed);
    entry.by = "mt";
    CHECK(codeOf() == "sign_in.no_pin_given");
    entry.by = asking("mt", "");
    CHECK(codeOf() == "sign_in.no_pin_given");
}

TEST_CASE("What never waits is taken under a name, and asks nobody", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    int asked = 0;
    const auto written = station::writeEntry(ward.surroundings, ward.logbook,
                                             soiled(asking("mt", testPin, &asked)));
    REQUIRE(written);
    CHECK(asked == 0);
    CHECK_FALSE(written->confirmed);
    CHECK(written->by == "mt");
    CHECK(written->warnings.empty());
    CHECK(lastRecord(ward).content.find(R"("confirmed":false)") != std::string::npos);
    // Under a name that the log does not know as well.
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, soiled("agency"))->warnings.size() ==
          1);
    // Signed, if somebody did sign in.
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, soiled(ward.as("mt")))->confirmed);
    CHECK(lastRecord(ward).confirmed);
}

TEST_CASE("A PIN that is offered signs what never waits, and a wrong one stops nothing",
          "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    auto writer = asking("mt", testPin);
    writer.offered = true;
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, soiled(writer))->confirmed);
    writer = asking("mt", "402952");
    writer.offered = true;
    for (int times = 0; times < 12; ++times) {
        const auto written = station::writeEntry(ward.surroundings, ward.logbook, soiled(writer));
        REQUIRE(written);
        CHECK_FALSE(written->confirmed);
        CHECK(written->warnings.size() == 1);
        ward.clock.advance(logbook::Duration{60'000});
    }
    CHECK(codeOfSigning(ward, "mt", testPin) == "sign_in.locked");
}

TEST_CASE("On a unit in use parts and moves do not wait, on another they do", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto codesOf = [&] {
        std::vector<std::string> codes;
        station::Entry entry{"mt", "fit", "KB-0001"};
        const std::pair<const char*, json::Object> bodies[] = {
            {"fit", {{"position", "circuit"}, {"part", json::Object{}}}},
            {"remove", {{"position", "circuit"}}},
            {"move", {{"location", "Bed 4"}}},
            {"power", {{"on", true}}}};
        for (const auto& [kind, body] : bodies) {
            entry.kind = kind;
            entry.body = body;
            const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
            codes.push_back(written ? "" : written.error().code);
        }
        return codes;
    };
    const std::string waits = "sign_in.no_pin_given";
    CHECK(codesOf() == std::vector<std::string>{waits, waits, waits, waits});
    const auto use = [&](const char* kind) {
        station::Entry entry{"mt", kind, "KB-0001"};
        if (std::string_view(kind) == "use_pause") {
            entry.body = {{"reason", "Circuit change"}};
        }
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    };
    use("use_start");
    CHECK(codesOf() == std::vector<std::string>{"", "", "", waits});
    use("use_pause");
    CHECK(codesOf() == std::vector<std::string>{"", "", "", waits});
    use("use_end");
    CHECK(codesOf() == std::vector<std::string>{waits, waits, waits, waits});
}

TEST_CASE("Whether an entry waits for a PIN is known before it is made", "[unit]") {
    using logbook::Kind;
    Ward ward;
    CHECK_FALSE(station::waitsForPin({}, Kind::Adopt, ""));
    CHECK(station::waitsForPin({}, Kind::Fit, "KB-0001"));
    ward.found();
    ward.enrol("KB-0001");
    const auto waits = [&](Kind kind, const char* device) {
        const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
        REQUIRE(log);
        const auto state = log->log.stateAt(ward.clock.now(), rules::unlimited);
        return station::waitsForPin(state, kind, device);
    };
    CHECK(waits(Kind::Adopt, ""));
    for (const auto kind : {Kind::UseStart, Kind::UsePause, Kind::UseResume, Kind::UseEnd,
                            Kind::Fault, Kind::Withdraw, Kind::Soil, Kind::Alarm}) {
        CHECK_FALSE(waits(kind, "KB-0001"));
        CHECK_FALSE(waits(kind, "KB-0999"));
    }
    CHECK(waits(Kind::Fit, "KB-0001"));
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, {"mt", "use_start", "KB-0001"}));
    for (const auto kind : {Kind::Fit, Kind::Remove, Kind::Move}) {
        CHECK_FALSE(waits(kind, "KB-0001"));
        CHECK(waits(kind, "KB-0999"));
    }
    CHECK(waits(Kind::Check, "KB-0001"));
}

TEST_CASE("A badge stands for a person, and asks for the PIN all the same", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.person("rs", "biomed");
    const auto robin = ward.as("rs");
    const auto badge = [&](const std::string& person, std::optional<std::string> read) {
        const auto set = station::setBadge(ward.surroundings, ward.logbook,
                                           {ward.as("mt"), person, std::move(read)});
        return set ? "" : set.error().code;
    };
    CHECK(badge("rs", "0042717") == "");
    CHECK(badge("mt", "0042717") == "people.badge_taken");
    CHECK(badge("mt", "rs") == "people.bad_badge");
    CHECK(badge("mt", "") == "people.bad_badge");
    CHECK(badge("nobody", "1") == "people.unknown");
    const auto session =
        station::signIn(ward.surroundings, ward.logbook, "0042717", secretOf(testPin));
    REQUIRE(session);
    CHECK(session->person() == "rs");
    CHECK(codeOfSigning(ward, "0042717", "402952") == "sign_in.wrong");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, soiled("0042717")));
    CHECK(lastRecord(ward).by == "rs");
    CHECK(badge("rs", std::nullopt) == "");
    CHECK(codeOfSigning(ward, "0042717", testPin) == "sign_in.unknown");
}
