// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keys spelled almost like the one that is traced.
#include "rules/trace_alike.h"

#include "support/describe.h"
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

std::string alike(const LogBuilder& log, rules::TraceBy by, const std::string& key) {
    const auto keys = rules::alikeKeys(toLog(log), {by, key, when("12:00")});
    return joined(keys, [](const auto& each) { return each; });
}

}  // namespace

TEST_CASE("a lot typed with small letters or blanks is told beside the one traced", "[unit]") {
    LogBuilder log = logWith(book("[positions.circuit]\n[positions.sensor]\n"));
    log.on(device).at("09:00").fit("circuit", {{"lot", "C-4471"}, {"serial", "S 1"}});
    log.on(device).at("09:10").fit("circuit", {{"lot", "c 4471"}, {"serial", "s1"}});
    log.on(device).at("09:20").fit("sensor", {{"lot", "C-4472"}});
    log.on(device).at("13:00").fit("sensor", {{"lot", "C_4471"}});  // after the instant asked
    CHECK(alike(log, rules::TraceBy::Lot, "C-4471") == "c 4471");
    CHECK(alike(log, rules::TraceBy::Lot, "c4471") == "C-4471, c 4471");
    CHECK(alike(log, rules::TraceBy::Lot, "4471").empty());
    CHECK(alike(log, rules::TraceBy::Serial, "S1") == "S 1, s1");
    CHECK(alike(log, rules::TraceBy::Load, "C-4471").empty());
    CHECK(alike(log, rules::TraceBy::Notice, "c4471").empty());
}

TEST_CASE("what is struck through or not known then is not told", "[unit]") {
    LogBuilder log = logWith(book("[positions.circuit]\n"));
    const auto fit = log.on(device).at("09:00").fit("circuit", {{"lot", "c4471"}});
    CHECK(alike(log, rules::TraceBy::Lot, "C4471") == "c4471");
    log.on(device).at("10:00").strike(fit);
    CHECK(alike(log, rules::TraceBy::Lot, "C4471").empty());
}
