// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A ward for tests of the use cases: a folder with a logbook, a clock that tests move, and records
// as another station writes them.
#pragma once

#include "station/entry.h"
#include "support/folder.h"
#include "support/moved_clock.h"
#include "support/scripted_terminal.h"
#include "support/zones.h"

#include <catch2/catch.hpp>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace support {

struct Ward {
    Folder folder;
    MovedClock clock{utc(2026, 3, 2, 14)};
    station::Surroundings surroundings{clock, zones(), *words::Words::builtIn(), "desk"};
    station::LogbookFile logbook{folder.file("ward.logbook")};
    std::map<std::string, station::Session> sessions{};  // of those who have signed in

    // Station icu-1, one edition by mt, who is lead and may enter persons; each has testPin.
    void found() {
        REQUIRE(station::foundStation(surroundings, logbook, "icu-1"));
        folder.write("policy.toml", policy);
        const auto now = toText(clock.now());
        const auto line = [&](std::string_view kind, int seq, logbook::json::Object body) {
            return logbook::json::Object{{"station", "icu-1"}, {"seq", seq},
                                         {"at", now},          {"entered", now},
                                         {"by", "mt"},         {"device", ""},
                                         {"kind", kind},       {"body", std::move(body)}};
        };
        const std::vector<logbook::Record> records{
            *logbook::readRecord(line("adopt", 1, {{"edition", "1"}, {"text", policy}})),
            *logbook::readRecord(line("person", 2, personBody("mt", "lead")))};
        auto file = station::openLogbook(surroundings, logbook, station::Access::Write);
        REQUIRE(file);
        REQUIRE(file->appendOwn([&](const logbook::RecordName&) { return records; },
                                {"mt", clock.now()}));
        as("mt");
    }

    // Signed in, with a PIN set here before if need be; unsigned, if the log does not know them.
    station::Writer as(const std::string& person) {
        const auto known = sessions.find(person);
        if (known != sessions.end()) {
            return known->second;
        }
        REQUIRE(store::Credentials(logbook.path).setPin(person, testPin, {"mt", clock.now()}));
        auto session = station::signIn(surroundings, logbook, person, secretOf(testPin));
        if (!session) {
            return person;
        }
        return sessions.emplace(person, *session).first->second;
    }

    // For imports: whoever must sign in once people do so.
    std::optional<station::Writer> importer() {
        return sessions.empty() ? std::nullopt : std::optional(as("mt"));
    }

    void person(const std::string& key, const std::string& role) {
        station::Entry entry{as("mt"), "person"};
        entry.body = personBody(key, role);
        REQUIRE(station::writeEntry(surroundings, logbook, entry));
    }

    static logbook::json::Object personBody(const std::string& key, const std::string& role) {
        return {{"person", key}, {"name", key}, {"roles", logbook::json::Array{role}}};
    }

    void enrol(const std::string& device) {
        station::Entry entry{as("mt"), "enrol", device};
        entry.body = {{"model", "Larch"},
                      {"groups", logbook::json::Array{"adult"}},
                      {"features", logbook::json::Array{}},
                      {"commissioned", "2026-01-15"}};
        REQUIRE(station::writeEntry(surroundings, logbook, entry));
    }

    [[nodiscard]] station::Result<station::Written> check(const std::string& device,
                                                          std::string_view outcome) {
        station::Entry entry{as("mt"), "check", device};
        entry.body = {{"check", "leak"}, {"outcome", outcome}};
        return station::writeEntry(surroundings, logbook, entry);
    }

    [[nodiscard]] std::string bytes() const { return bytesOf(logbook.path); }

    static constexpr std::string_view policy =
        "format = 1\ntitle = \"Small\"\nedition = \"1\"\ntime_zone = \"America/Chicago\"\n"
        "[groups.adult]\n[positions.circuit]\n[checks.leak]\ntakes = \"PT2M\"\n"
        "voided_by = [{ event = \"use_end\" }, { event = \"clear *\" }]\n"
        "[checks.leak.measures.leak]\nunit = \"mL/min\"\nmax = 200\n"
        "[services.yearly]\nevery = \"P12M\"\n"
        "[authority]\nadopt = [\"lead\"]\nstrike = [\"lead\"]\nclear = [\"biomed\"]\n";
};

// A note as another station writes it.
inline std::string noteLine(std::string_view station, int seq, std::string_view text = "Seen") {
    return R"({"at":"2026-03-02T14:00:00Z","body":{"text":")" + std::string(text) +
           R"("},"by":"bk","device":"KB-0001","entered":"2026-03-02T14:00:05Z","kind":"note",)"
           R"("seq":)" +
           std::to_string(seq) + R"(,"station":")" + std::string(station) + "\"}\n";
}

}  // namespace support
