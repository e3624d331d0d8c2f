// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The table's ward; see authority_table.h.
#include "cli/authority_table.h"

#include "station/people.h"

#include <algorithm>

namespace support {

namespace json = logbook::json;

std::string tablePolicy(const std::string& edition) {
    std::string text =
        "format = 1\ntitle = \"Table\"\nedition = \"" + edition +
        "\"\ntime_zone = \"America/Chicago\"\n[groups.adult]\n[positions.circuit]\n"
        "[checks.leak]\ntakes = \"PT2M\"\n[checks.second]\ntakes = \"PT2M\"\nneeds_second = true\n"
        "[services.yearly]\nevery = \"P12M\"\n[holds.repair]\n[holds.incident]\n"
        "release_by = [\"charge\"]\n[authority]\n";
    for (const auto& [kind, roles] : tableAuthority) {
        text += kind + " = [";
        for (const auto& role : roles) {
            text += "\"" + role + "\", ";
        }
        text += "]\n";
    }
    return text;
}

std::vector<TableKind> tableKinds(const std::string& rulebook) {
    const auto department = "";
    const auto unit = "KB-0001";
    return {
        {"adopt", department, {{"edition", "2"}, {"text", rulebook}}},
        {"person", department, Ward::personBody("new", "biomed")},
        {"notice", department,
         {{"key", "n1"}, {"title", "Hoses"}, {"action", "inspect"}, {"match", json::Object{}}}},
        {"enrol", "KB-0002",
         {{"model", "Larch"}, {"groups", json::Array{"adult"}}, {"features", json::Array{}},
          {"commissioned", "2026-01-15"}}},
        {"retire", unit, {{"reason", "Sold"}}},
        {"group", unit, {{"group", "adult"}}},
        {"power", unit, {{"on", true}}},
        {"move", unit, {{"location", "Bed 4"}}},
        {"sighted", unit, {{"location", "Bed 4"}}},
        {"software", unit, {{"version", "2.1"}}},
        {"fit", unit, {{"position", "circuit"}, {"part", json::Object{}}}},
        {"remove", unit, {{"position", "circuit"}}},
        {"reprocess", unit, {{"positions", json::Array{"circuit"}}, {"level", "high"}}},
        {"soil", unit, {{"reason", "Splash"}}, false},
        {"check", unit, {{"check", "leak"}, {"outcome", "pass"}}},
        {"alarm", unit, {{"code", "low_pressure"}}, false},
        {"fault", unit, {{"code", "fan"}}, false},
        {"clear", unit, {{"code", "screen"}}},
        {"withdraw", unit, {{"hold", "incident"}, {"reason", "Fell"}}, false},
        {"release", unit, {{"hold", "repair"}}},
        {"waive", unit,
         {{"finding", "service_overdue"}, {"subject", "yearly"},
          {"until", "2026-03-09T14:00:00Z"}, {"reason", "Surge"}}},
        {"notice_done", unit, {{"key", "n0"}}},
        {"service", unit, {{"service", "yearly"}, {"outcome", "pass"}}},
        {"use_start", unit, {}, false},
        {"use_pause", unit, {{"reason", "Scan"}}, false},
        {"use_resume", unit, {}, false},
        {"use_end", unit, {}, false},
        {"note", unit, {{"text", "Seen"}}},
        {"review", unit, {{"target", "icu-1/1"}, {"disposition", "Looked at"}, {"text", ""}}},
        {"sign", department,
         {{"scope", "month"}, {"known_at", "2026-03-02T14:00:00Z"}, {"digest", "00"},
          {"heads", json::Object{}}}},
        {"strike", unit, {{"target", "icu-1/12"}, {"reason", "Wrong"}}},
    };
}

void foundTable(Ward& ward) {
    REQUIRE(station::openLogbook(ward.surroundings, ward.logbook, station::Access::Create));
    const auto pin = [](const std::string&) { return std::optional(secretOf(testPin)); };
    const auto policy = ward.folder.write("policy.toml", tablePolicy("1"));
    REQUIRE(station::begin(ward.surroundings, ward.logbook,
                           {"icu-1", "mt", "Morgan Thistle", station::Adoption{"mt", policy},
                            pin}));
    for (const auto& role : tableRoles) {
        ward.person(role, role);  // icu-1/3 to 8
        ward.as(role);
    }
    ward.enrol("KB-0001");
    const std::pair<const char*, json::Object> standing[] = {
        {"fault", {{"code", "screen"}}},
        {"withdraw", {{"hold", "repair"}, {"reason", "Fan noise"}}},
        {"note", {{"text", "To be struck"}}}};
    for (const auto& [kind, body] : standing) {
        station::Entry entry{ward.as("mt"), kind, "KB-0001", body};
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    }
    ward.clock.advance(logbook::Duration{3'600'000});
}

bool tableAllows(const std::string& kind, const std::string& role) {
    const auto named = tableAuthority.find(kind);
    return named == tableAuthority.end() ||
           std::ranges::find(named->second, role) != named->second.end();
}

}  // namespace support
