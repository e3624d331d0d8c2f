// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A trace by serial made from the records of a few units, against the trace in the whole log.
#include "station/serial_log.h"

#include "logbook/record_reader.h"
#include "station/answers.h"
#include "station/system.h"
#include "station/ward.h"
#include "support/random_log.h"
#include "support/seed.h"

#include <set>

using support::Ward;

namespace {

void keep(Ward& ward, const std::vector<logbook::Record>& records) {
    const auto access = station::system::exists(ward.logbook.path) ? station::Access::Write
                                                                   : station::Access::Create;
    auto file = station::openLogbook(ward.surroundings, ward.logbook, access);
    REQUIRE(file);
    REQUIRE(file->append(records, {"mt", ward.clock.now()}));
}

// All that a trace shows; why there is none, where there is none.
std::string shown(Ward& ward, const station::Result<station::WholeStanding>& standing,
                  const std::string& serial) {
    if (!standing) return standing.error().code;
    const auto trace =
        station::trace(ward.surroundings, *standing, {rules::TraceBy::Serial, serial});
    if (!trace) return trace.error().code;
    return toText(*trace, ward.surroundings.words) + logbook::json::pretty(toJson(*trace));
}

void compare(Ward& ward, const station::Asked& asked, const std::string& serial) {
    CAPTURE(serial, toText(asked.at.value_or(logbook::Instant{})),
            toText(asked.knownAt.value_or(logbook::Instant{})));
    const auto some =
        station::standingForSerial(ward.surroundings, ward.logbook, asked, serial);
    const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, asked);
    CHECK(shown(ward, some, serial) == shown(ward, whole, serial));
}

// Those of the log, one of which is not in it, and one spelled in another way.
std::set<std::string> serialsIn(const std::vector<logbook::Record>& records) {
    std::set<std::string> serials{"nowhere"};
    for (const auto& record : records) {
        const auto* fit = std::get_if<logbook::body::Fit>(&record.body);
        if (fit == nullptr || !fit->part.attributes.contains("serial")) continue;
        serials.insert(fit->part.attributes.at("serial"));
        serials.insert("-" + fit->part.attributes.at("serial"));
    }
    return serials;
}

logbook::Record fitOf(Ward& ward, std::int64_t seq, const std::string& device,
                      const std::string& serial) {
    const auto at = toText(ward.clock.now());
    const auto record = logbook::readRecord(
        R"({"station":"icu-2","seq":)" + std::to_string(seq) + R"(,"at":")" + at +
        R"(","entered":")" + at + R"(","by":"mt","device":")" + device +
        R"(","kind":"fit","body":{"position":"circuit","part":{"serial":")" + serial + "\"}}}");
    REQUIRE(record);
    return *record;
}

}  // namespace

TEST_CASE("A trace by serial is that in the whole log", "[property]") {
    const auto firstSeed = support::seedOfRun();
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 8; ++seed) {
        CAPTURE(seed);
        support::RandomShape shape;
        shape.records = 150;
        shape.devices = 6;
        support::RandomLog random(seed, shape);
        Ward ward;
        keep(ward, random.log().records());
        ward.clock.moveTo(random.end());
        for (const auto& serial : serialsIn(random.log().records())) {
            compare(ward, {random.anyInstant(), {}, {}}, serial);
            compare(ward, {random.anyInstant(), random.anyInstant(), {}}, serial);
            compare(ward, {}, serial);
        }
    }
}

TEST_CASE("Of a trace by serial only the units that the part was in are read", "[unit]") {
    Ward ward;
    ward.found();
    for (const auto* device : {"KB-0001", "KB-0002", "KB-0003"}) ward.enrol(device);
    keep(ward, {fitOf(ward, 1, "KB-0001", "C-1"), fitOf(ward, 2, "KB-0002", R"(04012345 C\"1)"),
                fitOf(ward, 3, "KB-0003", "C-2")});
    const auto devicesFor = [&](const std::string& serial) {
        const auto standing =
            station::standingForSerial(ward.surroundings, ward.logbook, {}, serial);
        REQUIRE(standing);
        std::set<std::string> devices;
        for (const auto& record : standing->log->log.records()) devices.insert(record.device);
        return devices;
    };
    using Devices = std::set<std::string>;
    // What is written with a backslash is looked at whatever it says.
    CHECK(devicesFor("C-1") == Devices{"", "KB-0001", "KB-0002"});
    CHECK(devicesFor("c 1") == Devices{"", "KB-0001", "KB-0002"});
    CHECK(devicesFor("C-2") == Devices{"", "KB-0002", "KB-0003"});
    for (const auto* serial : {"C-1", "c 1", "C\"1", "C-2", "04012345 C\"1"}) {
        compare(ward, {}, serial);
    }
}
