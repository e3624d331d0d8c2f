// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Desks at which the same is written by a part of the log and by the whole of it, and what somebody
// enters there.
#pragma once

#include "station/entry.h"
#include "station/log_at_hand.h"
#include "station/snapshots.h"
#include "support/folder.h"
#include "support/moved_clock.h"
#include "support/random_log.h"
#include "support/scripted_terminal.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace support {

struct Desk {
    station::Surroundings surroundings;
    station::LogbookFile file;
    std::optional<station::Session> robin{};

    void signIn() {
        auto session = station::signIn(surroundings, file, "Robin", secretOf(testPin));
        REQUIRE(session);
        robin = std::move(*session);
    }
    [[nodiscard]] store::Logbook open(station::Access access) const {
        auto logbook = station::openLogbook(surroundings, file, access);
        REQUIRE(logbook);
        return *std::move(logbook);
    }
    [[nodiscard]] station::LogAtHand atHand(const station::Needed& needed) const {
        const auto logbook = open(station::Access::Read);
        auto log = station::readAtHand(surroundings, file, logbook, needed);
        REQUIRE(log);
        return *std::move(log);
    }
    [[nodiscard]] station::WholeLog whole() const {
        auto log = station::readWholeLog(surroundings, file);
        REQUIRE(log);
        return *std::move(log);
    }
};

// Two that have the same records and clock; `keeping` has kept states besides.
struct Desks {
    Folder folder;
    MovedClock clock;
    Desk plain{{clock, zones(), *words::Words::builtIn(), "desk"}, {folder.file("plain.logbook")}};
    Desk keeping{{clock, zones(), *words::Words::builtIn(), "desk"},
                 {folder.file("keeping.logbook")}};

    Desks(const std::vector<logbook::Record>& records, logbook::Instant now) : clock(now) {
        REQUIRE(station::foundStation(plain.surroundings, plain.file, "desk-1"));
        REQUIRE(plain.open(station::Access::Write).append(records, {"mt", now}));
        REQUIRE(store::Credentials(plain.file.path).setPin("Robin", testPin, {"mt", now}));
        std::filesystem::copy_file(plain.file.path, keeping.file.path);
        plain.signIn();
        keeping.signIn();
        keepStates();
    }
    void keepStates() const { REQUIRE(station::rebuild(keeping.surroundings, keeping.file)); }
};

// What somebody enters at a desk, now or some time ago.
class Entering {
public:
    Entering(Random& dice, const Texts& devices, std::vector<RecordName> known)
        : m_dice(dice), m_devices(devices), m_known(std::move(known)) {}

    [[nodiscard]] std::vector<station::Entry> press(logbook::Instant now) {
        std::vector<station::Entry> entries{entry(now)};
        while (m_dice.chance(30)) entries.push_back(entry(now));
        for (auto& each : entries) each.batch = m_batch;
        if (m_dice.chance(40)) m_batch = "session " + std::to_string(++m_sessions);
        return entries;
    }

    [[nodiscard]] const RecordName& anyRecord() { return m_dice.pick(m_known); }
    void know(const RecordName& name) { m_known.push_back(name); }

private:
    [[nodiscard]] station::Entry entry(logbook::Instant now) {
        station::Entry entry{station::Writer("Robin"), "note", m_dice.pick(m_devices)};
        if (m_dice.chance(40)) entry.at = now - logbook::Duration{m_dice.below(4000) * 60'000LL};
        switch (m_dice.below(9)) {
        case 0: say(entry, "check", {{"check", pick({"leak", "zero", "battery"})},
                                     {"outcome", pick({"pass", "fail"})},
                                     {"conditions", list({"warmed_up"})}}); break;
        case 1: say(entry, "fit", {{"position", pick({"circuit", "sensor"})},
                                   {"part", json::Object{{"serial", pick({"P1", "P2", "P3"})}}}});
                break;
        case 2: say(entry, pick({"use_start", "use_end", "use_pause", "use_resume"}), {}); break;
        case 3: say(entry, "fault", {{"code", "fan"}}); break;
        case 4: say(entry, "clear", {{"code", "fan"}}); break;
        case 5: say(entry, "group", {{"group", pick({"adult", "pediatric"})}}); break;
        case 6: strike(entry); break;
        case 7: say(entry, "move", {{"location", pick({"ICU 1", "Store"})}}); break;
        default: say(entry, "note", {{"text", "Seen"}});
        }
        if (entry.kind == "use_pause") entry.body = {{"reason", "Scan"}};
        return entry;
    }
    [[nodiscard]] std::string pick(const Texts& texts) { return m_dice.pick(texts); }
    static void say(station::Entry& entry, const std::string& kind, json::Object body) {
        entry.kind = kind;
        entry.body = std::move(body);
    }
    void strike(station::Entry& entry) {
        say(entry, "strike", {{"target", toText(anyRecord())}, {"reason", "Twice"}});
        entry.at.reset();
    }

    Random& m_dice;
    const Texts& m_devices;
    std::vector<RecordName> m_known;
    std::string m_batch = "session 0";
    int m_sessions = 0;
};

inline std::vector<RecordName> namesOf(const std::vector<logbook::Record>& records) {
    std::vector<RecordName> names;
    for (const auto& record : records) names.push_back(record.name);
    return names;
}

}  // namespace support
