// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Settings of a station: read with every fault, written by a manager, and never handed out.
#include "station/settings.h"

#include "station/import.h"
#include "station/ward.h"

using support::Ward;

namespace {

using Values = decltype(station::SettingsChange::values);

station::Result<station::StationSettings> set(Ward& ward, Values values) {
    return station::changeSettings(ward.surroundings, ward.logbook,
                                   {ward.as("mt"), std::move(values)});
}

}  // namespace

TEST_CASE("Without a value each setting has its default", "[unit]") {
    Ward ward;
    ward.found();
    const auto all = station::settingsOf(ward.surroundings, ward.logbook);
    REQUIRE(all);
    CHECK(all->stated.empty());
    CHECK(all->faults.empty());
    CHECK(all->settings.lockAfter.ms == 90'000);
    CHECK(all->settings.staleAfter.ms == 12 * 3'600'000);
    CHECK_FALSE(all->settings.longUse);
    CHECK(all->settings.textSizePercent == 100);
    CHECK(station::valueOf(all->settings, "theme") == "computer");
    CHECK(station::valueOf(all->settings, "pressure").empty());
}

TEST_CASE("Several settings are set at once and read back", "[unit]") {
    Ward ward;
    ward.found();
    const std::map<std::string, std::string> wanted{
        {"place", "ICU room 9"},    {"lock-after", "2 min"},  {"stale-after", "6 h"},
        {"long-use", "21 d"},       {"language", "en"},       {"second-backup", "/media/copy"},
        {"text-size", "150"},       {"theme", "dark"},        {"scanner-prefix", "~x"},
        {"scanner-suffix", "#"},    {"pressure", "mbar"},     {"flow", "mL/min"}};
    Values values{wanted.begin(), wanted.end()};
    const auto all = set(ward, values);
    REQUIRE(all);
    for (const auto& [name, value] : wanted) {
        CAPTURE(name);
        CHECK(station::valueOf(all->settings, name) == value);
    }
    const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
    REQUIRE(log);
    CHECK(log->staleAfter.ms == 6 * 3'600'000);
    const auto exported = station::exportRecords(ward.surroundings, ward.logbook, {});
    REQUIRE(exported);
    CHECK(exported->count == 2);
    const auto unset = set(ward, {{"theme", std::nullopt}, {"lock-after", "PT90S"}});
    REQUIRE(unset);
    CHECK(unset->settings.theme == station::Theme::AsComputer);
    CHECK_FALSE(unset->stated.contains("theme"));
}

TEST_CASE("What cannot be set is refused whole, each with its reason", "[unit]") {
    Ward ward;
    ward.found();
    const auto before = ward.bytes();
    const std::vector<std::pair<std::string, std::string>> bad{
        {"place", " ICU"},          {"lock-after", "14 s"},     {"lock-after", "2 h"},
        {"lock-after", "1500 ms"},  {"stale-after", "31 d"},    {"stale-after", "soon"},
        {"long-use", "59 min"},     {"second-backup", "copy"},  {"language", "xx"},
        {"text-size", "99"},        {"text-size", "201"},       {"text-size", "1e2"},
        {"theme", "Dark"},          {"scanner-prefix", "a b"},  {"scanner-suffix", "123456789"},
        {"scanner-suffix", ""},     {"pressure", "L/min"},      {"flow", "knots"}};
    for (const auto& [name, value] : bad) {
        CAPTURE(name, value);
        const auto refused = set(ward, {{name, value}, {"place", "Desk"}});
        if (name == "place") {
            CHECK_FALSE(set(ward, {{name, value}}));
            continue;
        }
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == "settings.bad");
        CHECK(refused.error().details.size() == 1);
    }
    // The logbook itself, where a folder is wanted.
    const auto inWay = set(ward, {{"second-backup", ward.logbook.path.string()}});
    REQUIRE_FALSE(inWay);
    REQUIRE(inWay.error().details.size() == 1);
    CHECK(inWay.error().details[0].find("is no folder") != std::string::npos);
    CHECK(set(ward, {{"colour", "red"}}).error().code == "settings.unknown");
    CHECK((ward.bytes() == before));
}

TEST_CASE("A manager sets them, and before anybody has a PIN whoever is there", "[unit]") {
    Ward ward;
    REQUIRE(station::foundStation(ward.surroundings, ward.logbook, "icu-1"));
    const Values dark{{"theme", "dark"}};
    CHECK(station::changeSettings(ward.surroundings, ward.logbook, {{}, dark}));
    Ward other;
    other.found();
    const auto codeOf = [&](std::optional<station::Writer> by) {
        return station::changeSettings(other.surroundings, other.logbook, {std::move(by), dark})
            .error()
            .code;
    };
    const auto before = other.bytes();
    CHECK(codeOf({}) == "settings.nobody");
    CHECK(codeOf("mt") == "sign_in.no_pin_given");
    CHECK((other.bytes() == before));
    CHECK(set(other, dark));
}

TEST_CASE("A stored value that cannot be used is told and counts as not set", "[unit]") {
    Ward ward;
    ward.found();
    {
        auto logbook =
            station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
        REQUIRE(logbook);
        REQUIRE(logbook->setSetting("lock_after", "never", {"mt", ward.clock.now()}));
        REQUIRE(logbook->setSetting("unit.flow", "psi", {"mt", ward.clock.now()}));
        REQUIRE(logbook->setSetting("clock.start", "x", {"mt", ward.clock.now()}));
    }
    const auto all = station::settingsOf(ward.surroundings, ward.logbook);
    REQUIRE(all);
    CHECK(all->settings.lockAfter.ms == 90'000);
    REQUIRE(all->faults.size() == 2);
    CHECK(all->faults[0].name == "lock-after");
    CHECK(all->faults[1].name == "flow");
}
