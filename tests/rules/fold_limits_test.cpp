// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Limits of measures: on the limit, by group, in other units, and what a breach of each kind does.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

std::string bookOfMeasure(const std::string& rule) {
    return bookOfLeak("", "[checks.leak.measures.leak]\nunit = \"mL/min\"\n" + rule);
}

std::string outcomeOf(const LogBuilder& log) {
    const auto assessment = assessed(log);
    const auto found = status(assessment);
    return found == "due" ? found + ": " + reasons(finding(assessment, "due leak")) : found;
}

struct Measured {
    double value;
    std::string unit = "mL/min";
};

std::string afterPass(const std::string& rule, const Measured& measured) {
    LogBuilder log = logWith(bookOfMeasure(rule));
    log.on(device).measuring("leak", measured.value, measured.unit).pass("leak");
    return outcomeOf(log);
}

}  // namespace

TEST_CASE("limits are inclusive", "[unit]") {
    CHECK(afterPass("max = 200", {200}) == "current");
    CHECK(afterPass("max = 200", {200.001}) == "failed");
    CHECK(afterPass("max = 200", {199}) == "current");
    CHECK(afterPass("min = 20", {20}) == "current");
    CHECK(afterPass("min = 20", {19.999}) == "failed");
    CHECK(afterPass("min = 20", {21}) == "current");
    CHECK(afterPass("min = 20\nmax = 200", {20}) == "current");
    CHECK(afterPass("min = 20\nmax = 200", {200}) == "current");
    CHECK(afterPass("min = 20\nmax = 200", {19}) == "failed");
    CHECK(afterPass("min = 20\nmax = 200", {201}) == "failed");
    CHECK(afterPass("", {100000}) == "current");
}

TEST_CASE("values within a billionth of each other are equal", "[unit]") {
    CHECK(afterPass("max = 200", {200.0000001}) == "current");
    CHECK(afterPass("max = 200", {200.000001}) == "failed");
    CHECK(afterPass("min = 20", {19.99999999}) == "current");
    CHECK(afterPass("min = 20", {19.9999999}) == "failed");
}

TEST_CASE("a measure is converted to the rulebook's unit first", "[unit]") {
    CHECK(afterPass("max = 200", {0.2, "L/min"}) == "current");
    CHECK(afterPass("max = 200", {0.21, "L/min"}) == "failed");
    CHECK(afterPass("min = 200", {0.19, "L/min"}) == "failed");
}

TEST_CASE("a measure of another dimension is as if absent", "[unit]") {
    CHECK(afterPass("max = 200", {900, "kPa"}) == "current");
    CHECK(afterPass("max = 200\nrequired = true", {100, "kPa"}) == "due: measure_missing leak");
}

TEST_CASE("a required measure must be there", "[unit]") {
    LogBuilder log = logWith(bookOfMeasure("max = 200\nrequired = true"));
    log.on(device).pass("leak");
    CHECK(outcomeOf(log) == "due: measure_missing leak");
    log.on(device).measuring("other", 5, "mL/min").pass("leak");
    CHECK(outcomeOf(log) == "due: measure_missing leak");
    log.on(device).measuring("leak", 5, "mL/min").measuring("other", 900, "mL/min").pass("leak");
    CHECK(outcomeOf(log) == "current");
}

TEST_CASE("a breach may only mean that the attempt does not count", "[unit]") {
    const std::string rule = "min = 22\nbreach = \"discount\"";
    CHECK(afterPass(rule, {21.9}) == "due: measure leak");
    CHECK(afterPass(rule, {22}) == "current");
    LogBuilder log = logWith(bookOfMeasure(rule));
    log.on(device).measuring("leak", 21, "mL/min").fail("leak");
    CHECK(outcomeOf(log) == "failed");
}

TEST_CASE("a pass out of limits is a failure, an incomplete attempt too", "[unit]") {
    LogBuilder log = logWith(bookOfMeasure("max = 200"));
    const auto attempt =
        log.on(device).measuring("leak", 250, "mL/min").check("leak", "incomplete");
    CHECK(outcomeOf(log) == "failed");
    CHECK(restsOn(finding(assessed(log), "failed leak")) == toText(attempt));
}

TEST_CASE("limits by group are those of the selected one", "[unit]") {
    const std::string rule = "max = { adult = 200, pediatric = 100 }";
    LogBuilder log = logWith(bookOfMeasure(rule));
    log.on(device).enrol({"adult", "pediatric", "neonatal"});
    const auto measured = [&log](double value) {
        log.on(device).measuring("leak", value, "mL/min").pass("leak");
        return outcomeOf(log);
    };
    CHECK(measured(10) == "due: measure leak");  // none is selected
    log.on(device).group("adult");
    CHECK(measured(200) == "current");
    CHECK(measured(201) == "failed");
    log.on(device).group("pediatric");
    CHECK(measured(100) == "current");
    CHECK(measured(101) == "failed");
    CHECK(measured(99) == "current");
    log.on(device).group("neonatal");
    log.on(device).at("12:00").measuring("leak", 10, "mL/min").pass("leak");
    const auto state = stateOf(log);
    CHECK(deviceOf(state).checks.at("leak").discounted->reasons == Texts{"measure leak"});
    log.on(device).pass("leak");  // only a measure that is given asks for its limit
    CHECK_FALSE(deviceOf(stateOf(log)).checks.at("leak").discounted);
}

TEST_CASE("one limit by group and one for all", "[unit]") {
    LogBuilder log = logWith(bookOfMeasure("min = 20\nmax = { pediatric = 100 }"));
    log.on(device).measuring("leak", 50, "mL/min").pass("leak");
    CHECK(outcomeOf(log) == "due: measure leak");
    log.on(device).measuring("leak", 19, "mL/min").pass("leak");
    CHECK(outcomeOf(log) == "failed");  // out of the one that holds for all

    LogBuilder other = logWith(bookOfMeasure("min = { pediatric = 20 }\nmax = 200"));
    other.on(device).measuring("leak", 50, "mL/min").pass("leak");
    CHECK(outcomeOf(other) == "due: measure leak");
}

TEST_CASE("a breach that discounts and a group without a limit are one reason", "[unit]") {
    LogBuilder log = logWith(
        bookOfMeasure("min = 20\nmax = { pediatric = 100 }\nbreach = \"discount\""));
    log.on(device).measuring("leak", 10, "mL/min").pass("leak");
    CHECK(outcomeOf(log) == "due: measure leak");
}

TEST_CASE("of several measures each is looked at", "[unit]") {
    LogBuilder log = logWith(bookOfMeasure(
        "max = 200\n[checks.leak.measures.compliance]\nunit = \"mL/cmH2O\"\nmin = 1\n"));
    log.on(device).measuring("leak", 100, "mL/min").measuring("compliance", 0.5, "mL/cmH2O")
        .pass("leak");
    CHECK(outcomeOf(log) == "failed");
    log.on(device).measuring("leak", 300, "mL/min").measuring("compliance", 2, "mL/cmH2O")
        .pass("leak");
    CHECK(outcomeOf(log) == "failed");
    log.on(device).measuring("leak", 100, "mL/min").measuring("compliance", 2, "mL/cmH2O")
        .pass("leak");
    CHECK(outcomeOf(log) == "current");
}
