// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook as the threads of the window use it: one asks for the fleet, one paints what the other
// was told, one writes, one verifies, one makes kept states anew, and entries come in meanwhile. To
// be run under the thread sanitizer too.
#include "station/upkeep.h"

#include "station/folded_ward.h"
#include "support/threads.h"

#include <map>
#include <memory>
#include <mutex>

using namespace support;
using station::StandingSource;
using station::Surroundings;

namespace {

using Standing = std::shared_ptr<const station::Standing>;

const auto end = when("12-31 00:00");
constexpr int rounds = 12;

// What is shown of the fleet.
std::string shown(const Surroundings& surroundings, const station::Standing& standing) {
    return logbook::json::pretty(toJson(station::board(surroundings, standing)));
}

// Records that come in one round after the other, and what is shown after each.
struct Day {
    std::vector<std::vector<logbook::Record>> portions{};
    std::map<std::int64_t, std::string> shownAt{};  // by the arrival of the last record
    std::vector<logbook::Record> records{};

    Day() {
        auto log = quietLog(2);
        FoldedWard ward;
        take(ward, log);
        for (int round = 1; round <= rounds; ++round) {
            if (round % 3 == 0) {
                // Behind what was folded already.
                const auto late = log.nextInstant() - minutes(700);
                log.on("KC-" + std::to_string(round)).at(late).enrol({"adult"});
            }
            log.on(device).at(when("04-01 08:00") + minutes(10 * round)).soil();
            take(ward, log);
        }
        records = log.records();
    }

private:
    void take(FoldedWard& ward, const LogBuilder& log) {
        const auto& all = log.records();
        portions.emplace_back(all.begin() + m_taken, all.end());
        m_taken = static_cast<std::ptrdiff_t>(all.size());
        ward.add(portions.back());
        const auto standing = ward.askCold({.at = end});
        shownAt[standing.facts.arrival] = shown(ward.surroundings, standing);
    }

    std::ptrdiff_t m_taken = 0;
};

// The last that was told of the fleet, for whoever paints.
class Told {
public:
    void put(Standing standing) {
        const std::lock_guard lock(m_mutex);
        m_standing = std::move(standing);
    }
    [[nodiscard]] Standing get() {
        const std::lock_guard lock(m_mutex);
        return m_standing;
    }

private:
    std::mutex m_mutex;
    Standing m_standing;
};

// As a thread of the window has them: a source of zones of its own.
struct Seat {
    const FoldedWard& ward;
    Surroundings surroundings{ward.clock, zones(), ward.surroundings.words, "desk"};
};

Outcome compare(const Day& day, const Seat& seat, const station::Standing& standing) {
    const auto expected = day.shownAt.find(standing.facts.arrival);
    if (expected == day.shownAt.end()) return "a log that never was";
    return shown(seat.surroundings, standing) == expected->second ? "" : "another fleet is shown";
}

Outcome askAndTell(const Day& day, const Seat& seat, StandingSource& source, Told& told) {
    auto asked = source.ask({.at = end});
    if (!asked) return asked.error().code;
    const auto standing = std::make_shared<const station::Standing>(*std::move(asked));
    told.put(standing);
    // Both look records up.
    return compare(day, seat, *standing);
}

Outcome paint(const Day& day, const Seat& seat, Told& told) {
    const auto standing = told.get();
    if (standing == nullptr) return {};
    for (const auto& record : day.records) {
        const auto* found = standing->lookup(record.name);
        if (found != nullptr && found->content != record.content) return "another was found";
    }
    return compare(day, seat, *standing);
}

Outcome write(const Day& day, const Seat& seat) {
    for (std::size_t round = 1; round < day.portions.size(); ++round) {
        auto logbook = station::openLogbook(seat.surroundings, seat.ward.file,
                                            station::Access::Write);
        if (!logbook) return logbook.error().code;
        const auto added = logbook->append(day.portions[round], {"mt", seat.ward.clock.now()});
        if (!added) return std::string(name(added.error().code));
        station::renewSnapshots(seat.surroundings, seat.ward.file);
    }
    return {};
}

Outcome verify(const Seat& seat) {
    const auto answer = station::verify(seat.surroundings, seat.ward.file);
    if (!answer) return answer.error().code;
    return answer->ok() && answer->noted ? "" : "it does not verify";
}

Outcome rebuild(const Seat& seat) {
    const auto made = station::rebuild(seat.surroundings, seat.ward.file);
    return made ? Outcome() : made.error().code;
}

}  // namespace

TEST_CASE("What the threads of a window are told is the log as it was after some entry",
          "[unit][threads]") {
    const Day day;
    const FoldedWard ward;
    ward.add(day.portions.front());
    const Seat reading{ward}, painting{ward}, writing{ward}, verifying{ward}, rebuilding{ward};
    auto source = StandingSource::open(reading.surroundings, ward.file);
    REQUIRE(source);
    Told told;
    Threads threads;
    threads.once([&] { return write(day, writing); });
    threads.beside([&] { return askAndTell(day, reading, **source, told); });
    threads.beside([&] { return paint(day, painting, told); });
    threads.beside([&] { return verify(verifying); });
    threads.beside([&] { return rebuild(rebuilding); });
    threads.join();
    const auto last = (*source)->ask({.at = end});
    REQUIRE(last);
    CHECK(last->facts.arrival == day.shownAt.rbegin()->first);
    CHECK(compare(day, reading, *last) == Outcome());
    CHECK(station::verify(verifying.surroundings, ward.file)->ok());
}
