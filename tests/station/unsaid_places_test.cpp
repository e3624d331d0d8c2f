// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Of which units on a patient nobody said where they are, from the records of a logbook.
#include "station/unsaid_places.h"

#include "station/signed_act.h"
#include "station/ward.h"

#include <catch2/catch.hpp>
#include <string>

using support::Ward;

TEST_CASE("A place that nobody said at the start of a use is told as such", "[unit]") {
    Ward ward;
    ward.found();
    for (const auto* device : {"KB-0001", "KB-0002", "KB-0003"}) ward.enrol(device);
    const auto write = [&](const std::string& kind, const std::string& device,
                           logbook::json::Object body) {
        station::Entry entry{ward.as("mt"), kind, device};
        entry.body = std::move(body);
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    };
    const auto unsaid = [&] {
        const auto stands = station::standing(ward.surroundings, ward.logbook, {});
        REQUIRE(stands);
        const auto found = station::placesUnsaid(ward.surroundings, ward.logbook, *stands);
        CHECK(found.isRead);
        return found.places;
    };
    CHECK(unsaid().empty());
    const auto start = ward.clock.now();
    write("use_start", "KB-0001", {{"emergency", true}});
    write("use_start", "KB-0002", {{"emergency", true}});
    write("use_start", "KB-0003", {{"location", "ICU room 4"}});
    CHECK(unsaid() == report::PlacesUnsaid{{"KB-0001", start}, {"KB-0002", start}});
    ward.clock.advance(logbook::Duration{60'000});
    write("sighted", "KB-0002", {{"location", "ICU room 5"}});
    CHECK(unsaid() == report::PlacesUnsaid{{"KB-0001", start}});
    write("use_end", "KB-0001", {});
    CHECK(unsaid().empty());
}
