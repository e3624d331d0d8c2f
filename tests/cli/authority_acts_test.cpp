// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Roles that change between event and entry, batches of which one entry is not allowed, and forms
// that stand for another's role. Besides the table of authority_table_test.cpp.
#include "cli/authority_table.h"

#include "station/correction.h"
#include "station/upkeep.h"

using namespace support;

namespace {

struct Table {
    Ward ward;
    Table() { foundTable(ward); }
};

TableKind kindOf(const std::string& name) {
    for (const auto& kind : tableKinds(tablePolicy("2"))) {
        if (kind.kind == name) {
            return kind;
        }
    }
    throw std::runtime_error("no kind " + name);
}

}  // namespace

TEST_CASE("Who has a role by the time of the event, and none by that of the entry, may state it",
          "[unit]") {
    Table table;
    auto& ward = table.ward;
    const auto therapist = ward.as("therapist");
    const auto earlier = ward.clock.now() - logbook::Duration{60'000};
    const auto check = kindOf("check");
    ward.person("therapist", "visitor");
    ward.clock.advance(logbook::Duration{60'000});
    station::Entry entry{therapist, check.kind, check.device, check.body};
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry).error().code ==
          "refusal.roles");
    entry.at = earlier;
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

TEST_CASE("A lead who may not clear moves no batch with a clearing in it", "[unit]") {
    Table table;
    auto& ward = table.ward;
    station::Entry enrol{ward.as("biomed"), "enrol", "KB-0002", kindOf("enrol").body};
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, enrol));
    std::optional<logbook::RecordName> first;
    for (const auto* kind : {"note", "clear"}) {
        const auto part = kindOf(kind);
        station::Entry entry{ward.as("biomed"), part.kind, "KB-0001", part.body};
        entry.batch = "b1";
        const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
        REQUIRE(written);
        first = first.value_or(written->record);
    }
    const auto before = ward.bytes();
    const auto moved = station::moveToUnit(ward.surroundings, ward.logbook,
                                           {ward.as("lead"), *first, true, "Wrong unit"},
                                           "KB-0002");
    REQUIRE_FALSE(moved);
    CHECK(moved.error().code == "refusal.roles");
    CHECK_FALSE(moved.error().details.empty());
    CHECK((ward.bytes() == before));
}

TEST_CASE("Only a form that this station has printed stands for another's role", "[unit]") {
    Table table;
    auto& ward = table.ward;
    const auto check = kindOf("check");
    station::Entry entry{ward.as("visitor"), check.kind, check.device, check.body};
    entry.doneBy = "charge";
    entry.form = "RT-7";
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry).error().code ==
          "refusal.roles");
    REQUIRE(station::downtimeForms(ward.surroundings, ward.logbook, 1));
    entry.form = "icu-1-F1";
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry));
}
