// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What tests of folding start from: a logbook of a ward, records as they come in, and all that is
// answered by a state, to be compared with what is folded from the first record on.
#pragma once

#include "station/answers.h"
#include "station/snapshots.h"
#include "station/standing_source.h"
#include "support/folder.h"
#include "support/moved_clock.h"
#include "support/random_log.h"

#include <SQLiteCpp/Database.h>
#include <catch2/catch.hpp>

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace support {

struct FoldedWard {
    Folder folder;
    MovedClock clock{when("12-30 12:00")};
    station::Surroundings surroundings{clock, zones(), *words::Words::builtIn(), "desk"};
    station::LogbookFile file{folder.file("ward.logbook")};

    FoldedWard() { REQUIRE(station::foundStation(surroundings, file, "desk-1")); }

    void add(const std::vector<logbook::Record>& records) const {
        auto logbook = station::openLogbook(surroundings, file, station::Access::Write);
        REQUIRE(logbook);
        REQUIRE(logbook->append(records, {"mt", clock.now()}));
    }
    [[nodiscard]] station::SnapshotsMade rebuild() const {
        const auto made = station::rebuild(surroundings, file);
        REQUIRE(made);
        return *made;
    }
    [[nodiscard]] station::Standing ask(const station::Asked& asked) const {
        auto standing = station::standing(surroundings, file, asked);
        REQUIRE(standing);
        return *std::move(standing);
    }
    [[nodiscard]] station::Standing askCold(const station::Asked& asked) const {
        auto standing = station::coldStanding(surroundings, file, asked);
        REQUIRE(standing);
        return *std::move(standing);
    }
    [[nodiscard]] store::Logbook open() const {
        auto logbook = station::openLogbook(surroundings, file, station::Access::Read);
        REQUIRE(logbook);
        return *std::move(logbook);
    }
    void tamper(const std::string& sql) const {
        SQLite::Database(file.path.string(), SQLite::OPEN_READWRITE).exec(sql);
    }
};

// All that rests on a state: the board, and of each unit its way to ready; what comes; a muster.
inline std::string answersOf(const FoldedWard& ward, const station::Standing& standing) {
    namespace json = logbook::json;
    auto all = json::pretty(toJson(station::board(ward.surroundings, standing)));
    for (const auto& [serial, unit] : standing.state.devices) {
        const auto way = station::wayToReady(ward.surroundings, standing, serial);
        REQUIRE(way);
        all += json::pretty(toJson(*way));
    }
    all += json::pretty(toJson(station::horizon(ward.surroundings, standing,
                                                logbook::Duration{12LL * 3'600'000})));
    if (standing.group) {
        all += json::pretty(toJson(station::muster(ward.surroundings, standing, {1, 2})));
    }
    return all;
}

inline void requireSame(const FoldedWard& ward, const station::Asked& asked,
                        const station::Standing& warm) {
    const auto cold = ward.askCold(asked);
    REQUIRE(warm.at == cold.at);
    REQUIRE(warm.later.size() == cold.later.size());
    REQUIRE(warm.heard.size() == cold.heard.size());
    for (std::size_t index = 0; index < warm.heard.size(); ++index) {
        REQUIRE(warm.heard[index].station == cold.heard[index].station);
        REQUIRE(warm.heard[index].heard == cold.heard[index].heard);
    }
    REQUIRE(answersOf(ward, warm) == answersOf(ward, cold));
}

// The records of a random log in the order in which they come in: some stations are behind.
class Arriving {
public:
    Arriving(std::uint32_t seed, int count)
        : m_random(seed, {.records = count, .stations = 4, .devices = 3}) {
        for (const auto& record : m_random.log().records()) {
            m_rest[record.name.station].push_back(record);
        }
        for (const auto& [station, records] : m_rest) m_stations.push_back(station);
    }

    // The first edition and person must come first.
    std::vector<logbook::Record> first() {
        std::vector<logbook::Record> records;
        for (const auto& station : m_stations) take(station, 25, records);
        return records;
    }
    std::vector<logbook::Record> next() {
        std::vector<logbook::Record> records;
        take(m_random.random().pick(m_stations), m_random.random().below(9), records);
        return records;
    }
    [[nodiscard]] RandomLog& random() { return m_random; }

private:
    void take(const std::string& station, int count, std::vector<logbook::Record>& into) {
        auto& rest = m_rest.at(station);
        for (; count > 0 && !rest.empty(); --count) {
            into.push_back(rest.front());
            rest.erase(rest.begin());
        }
    }

    RandomLog m_random;
    std::map<std::string, std::vector<logbook::Record>> m_rest;
    std::vector<std::string> m_stations;
};

// A note each hour for so many days, behind an edition and a unit.
inline LogBuilder quietLog(int days) {
    LogBuilder log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]"));
    for (int hour = 0; hour < days * 24; ++hour) {
        log.on(device).at(when("03-03 00:00") + minutes(60 * hour)).note();
    }
    return log;
}

}  // namespace support
