// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A ward whose logbook fills some pages, one of which comes to harm.
#pragma once

#include "logbook/record_reader.h"
#include "station/upkeep.h"
#include "station/ward.h"

#include <catch2/catch.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace support {

inline constexpr std::size_t pageSize = 4096;

inline std::string codeOf(Ward& ward, const station::Entry& entry) {
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    return written ? "" : written.error().code;
}

// Notes of another station, which fill pages.
inline void keepNotes(Ward& ward, int first, int last) {
    std::vector<logbook::Record> records;
    for (int seq = first; seq <= last; ++seq) {
        records.push_back(
            *logbook::readRecord(noteLine("icu-9", seq, std::string(250, 'x'))));
    }
    auto file = station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
    REQUIRE(file);
    REQUIRE(file->append(records, {"mt", ward.clock.now()}));
}

// KB-0001 with a circuit, KB-0002 in the middle of the file, and a start that waits for its name.
inline void fill(Ward& ward) {
    ward.found();
    ward.enrol("KB-0001");
    station::Entry fit{ward.as("mt"), "fit", "KB-0001"};
    fit.body = {{"position", "circuit"},
                {"part", logbook::json::Object{{"serial", "4711"}, {"lot", "L7"}}}};
    REQUIRE(codeOf(ward, fit) == "");
    keepNotes(ward, 1, 40);
    ward.enrol("KB-0002");
    REQUIRE(codeOf(ward, {"mt", "use_start", "KB-0002"}) == "");
    keepNotes(ward, 41, 80);
    REQUIRE(ward.check("KB-0001", "pass"));
}

// The place of the leaf of the table on which that stands.
inline std::size_t leafWith(const std::string& bytes, std::string_view with) {
    auto found = with.empty() ? bytes.rfind(R"("kind":"note")") : bytes.find(with);
    // It may stand in an index before.
    while (found != std::string::npos && bytes.at(found / pageSize * pageSize) != '\x0D') {
        found = bytes.find(with, found + 1);
    }
    REQUIRE(found != std::string::npos);
    return found / pageSize * pageSize;
}

// It is zeroed.
inline void zeroLeaf(Ward& ward, std::string_view with) {
    auto bytes = ward.bytes();
    bytes.replace(leafWith(bytes, with), pageSize, pageSize, '\0');
    ward.folder.write("ward.logbook", bytes);
}

inline constexpr std::string_view ofKb2 = R"("device":"KB-0002","entered")";

// What was written so far is in a state that is kept; an entry a while later comes after it.
inline void keepStates(Ward& ward) {
    keepNotes(ward, 81, 120);
    ward.clock.advance(logbook::Duration{5LL * 3'600'000});
    REQUIRE(codeOf(ward, {"mt", "use_end", "KB-0002"}) == "");
    const auto kept = station::rebuild(ward.surroundings, ward.logbook);
    REQUIRE(kept);
    REQUIRE(kept->kept > 0);
}

}  // namespace support
