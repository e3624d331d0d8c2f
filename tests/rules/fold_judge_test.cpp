// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A check attempt: every reason why it does not count, and what counts whatever else holds.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

// The reasons of the check's finding as it stands at the end; "counts" if there are none.
std::string reasonsNow(const LogBuilder& log, const std::string& check = "leak") {
    const auto state = stateOf(log);
    const auto& checks = deviceOf(state).checks;
    const auto found = checks.find(check);
    if (found == checks.end()) return "no attempt";
    if (!found->second.discounted) return "counts";
    return joined(found->second.discounted->reasons, [](const auto& each) { return each; });
}

}  // namespace

TEST_CASE("pass, failure, incomplete", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(""));
    CHECK(status(assessed(log)) == "due");
    const auto incomplete = log.on(device).check("leak", "incomplete");
    auto assessment = assessed(log);
    CHECK(status(assessment) == "due");
    CHECK(reasons(finding(assessment, "due leak")) == "incomplete");
    CHECK(finding(assessment, "due leak").discounted->record.name == incomplete);
    const auto failed = log.on(device).fail("leak");
    assessment = assessed(log);
    CHECK(status(assessment) == "failed");
    CHECK(restsOn(finding(assessment, "failed leak")) == toText(failed));
    CHECK_FALSE(finding(assessment, "failed leak").discounted);
    log.on(device).check("leak", "incomplete");
    assessment = assessed(log);
    CHECK(status(assessment) == "failed");  // the last counted attempt stays
    CHECK(reasons(finding(assessment, "failed leak")) == "incomplete");
    log.on(device).pass("leak");
    CHECK(status(assessed(log)) == "current");
    CHECK(reasonsNow(log) == "counts");
}

TEST_CASE("a failure stands until a pass, also where something voids the check", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]"));
    log.on(device).fail("leak");
    log.on(device).soil();
    CHECK(findings(assessed(log)) == "failed leak");
    log.on(device).pass("leak");
    CHECK(findings(assessed(log)).empty());
    log.on(device).soil();
    CHECK(findings(assessed(log)) == "due leak");
    log.on(device).fail("leak");
    CHECK(findings(assessed(log)) == "failed leak");
}

TEST_CASE("too early after a fit", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        "not_before = [{ event = \"fit cell\", wait = \"PT30M\" }, "
        "{ event = \"fit sensor\", wait = \"PT40M\" }]",
        "[positions.cell]\n[positions.sensor]\n"));
    log.on(device).at("09:00").pass("leak");
    CHECK(reasonsNow(log) == "counts");  // empty positions ask for no wait
    log.on(device).at("10:00").fit("cell");
    log.on(device).at("10:29:59.999").pass("leak");
    CHECK(reasonsNow(log) == "too_early");
    log.on(device).at("10:30").pass("leak");
    CHECK(reasonsNow(log) == "counts");
    log.on(device).at("11:00").fit("sensor");
    log.on(device).at("11:39").pass("leak");
    CHECK(reasonsNow(log) == "too_early");  // the latest of them
    log.on(device).at("11:40").pass("leak");
    CHECK(reasonsNow(log) == "counts");
    log.on(device).at("12:00").fit("cell");
    log.on(device).at("12:01").remove("cell");
    log.on(device).at("12:02").pass("leak");
    CHECK(reasonsNow(log) == "counts");
}

TEST_CASE("too early after any fit", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("not_before = [{ event = \"fit *\", wait = \"PT30M\" }]",
                                        "[positions.cell]\n[positions.sensor]\n"));
    log.on(device).at("10:00").fit("sensor");
    log.on(device).at("10:10").fit("cell");
    log.on(device).at("10:39").pass("leak");
    CHECK(reasonsNow(log) == "too_early");
    log.on(device).at("10:40").pass("leak");
    CHECK(reasonsNow(log) == "counts");
}

TEST_CASE("a position that the edition no longer names asks for no wait", "[unit]") {
    const std::string wait = "not_before = [{ event = \"fit *\", wait = \"PT30M\" }]\n";
    LogBuilder log = logWith(bookOfLeak(wait, "[positions.cell]\n"));
    log.on(device).at("10:00").fit("cell");
    log.department().at("10:01").adopt(
        book("[checks.leak]\ntakes = \"PT2M\"\n" + wait, {"2"}));
    CHECK(text(finding(assessed(log, "10:00"), "due leak").notBefore) == "2026-03-02T10:30:00Z");
    CHECK_FALSE(finding(assessed(log, "10:02"), "due leak").notBefore);
    log.on(device).at("10:02").pass("leak");
    CHECK(reasonsNow(log) == "counts");
}

TEST_CASE("warming up", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        "not_before = [{ event = \"power_on\", wait = \"PT2M\" }]"));
    log.on(device).at("09:00").pass("leak");
    CHECK(reasonsNow(log) == "power_unknown");
    log.on(device).at("09:10").stating("warmed_up").pass("leak");
    CHECK(reasonsNow(log) == "counts");
    log.on(device).at("10:00").power(true);
    log.on(device).at("10:01:59").stating("warmed_up").pass("leak");
    CHECK(reasonsNow(log) == "too_early");
    log.on(device).at("10:02").pass("leak");
    CHECK(reasonsNow(log) == "counts");
    log.on(device).power(false);
    log.on(device).pass("leak");
    CHECK(reasonsNow(log) == "power_unknown");
}

TEST_CASE("only a wait for power asks for the power", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        "not_before = [{ event = \"fit cell\", wait = \"PT2M\" }]", "[positions.cell]\n"));
    log.on(device).pass("leak");
    CHECK(reasonsNow(log) == "counts");
}

TEST_CASE("conditions that the record must state", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("needs = [\"mains_power\", \"gas_supply\"]"));
    log.on(device).pass("leak");
    CHECK(reasonsNow(log) == "condition gas_supply, condition mains_power");
    log.on(device).stating("mains_power").pass("leak");
    CHECK(reasonsNow(log) == "condition gas_supply");
    log.on(device).stating("mains_power").stating("gas_supply").stating("other").pass("leak");
    CHECK(reasonsNow(log) == "counts");
}

TEST_CASE("parts that must suit the group", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("needs_match = [\"sensor\"]", "[positions.sensor]\n"));
    const auto after = [&log](json::Object part) {
        log.on(device).fit("sensor", std::move(part));
        log.on(device).pass("leak");
        return reasonsNow(log);
    };
    log.on(device).pass("leak");
    CHECK(reasonsNow(log) == "mismatch sensor");
    CHECK(after({}) == "mismatch sensor");
    CHECK(after({{"groups", list({"pediatric"})}}) == "mismatch sensor");
    CHECK(after({{"groups", list({"pediatric", "adult"})}}) == "counts");
    log.on(device).enrol({"adult", "pediatric"});
    log.on(device).pass("leak");
    CHECK(reasonsNow(log) == "mismatch sensor");  // no group is selected
}

TEST_CASE("parts that must not be in line", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        "not_with = [{ position = \"hme\", when = { \"circuit.layout\" = \"coaxial\" } }, "
        "{ position = \"filter\" }]",
        "[positions.hme]\n[positions.filter]\n[positions.circuit]\n"));
    const auto after = [&log] {
        log.on(device).pass("leak");
        return reasonsNow(log);
    };
    log.on(device).fit("circuit", {{"layout", "coaxial"}});
    CHECK(after() == "counts");
    log.on(device).fit("hme");
    CHECK(after() == "in_line hme");
    log.on(device).fit("filter");
    CHECK(after() == "in_line filter, in_line hme");
    log.on(device).fit("circuit", {{"layout", "twin"}});
    CHECK(after() == "in_line filter");
    log.on(device).remove("filter");
    CHECK(after() == "counts");
    log.on(device).fit("circuit");
    CHECK(after() == "in_line hme");  // not stated: it may be coaxial
    log.on(device).remove("circuit");
    CHECK(after() == "counts");
}

TEST_CASE("checks that must be current first", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        "after = [\"zero\", \"visual\"]",
        "[checks.zero]\ntakes = \"PT1M\"\nvalid_for = \"PT1H\"\n"
        "voided_by = [{ event = \"soil\" }]\n"
        "[checks.visual]\ntakes = \"PT1M\"\napplies_when = { \"feature.co2\" = true }\n"));
    log.on(device).at("09:00").pass("leak");
    CHECK(reasonsNow(log) == "order zero");
    log.on(device).at("09:01").fail("zero");
    log.on(device).at("09:02").pass("leak");
    CHECK(reasonsNow(log) == "order zero");
    log.on(device).at("09:03").pass("zero");
    log.on(device).at("09:04").pass("leak");
    CHECK(reasonsNow(log) == "counts");
    log.on(device).at("10:02:59").pass("leak");
    CHECK(reasonsNow(log) == "counts");
    log.on(device).at("10:03").pass("leak");
    CHECK(reasonsNow(log) == "order zero");  // out of date at that instant
    log.on(device).at("10:04").pass("zero");
    log.on(device).at("10:05").soil();
    log.on(device).at("10:06").pass("leak");
    CHECK(reasonsNow(log) == "order zero");
    log.on(device).enrol({"adult"}, {"co2"});
    log.on(device).pass("leak");
    CHECK(reasonsNow(log) == "order visual, order zero");
}

TEST_CASE("an attempt during use", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        "", "[checks.battery]\ntakes = \"PT1M\"\nduring_use = true\n"));
    log.on(device).useStart();
    log.on(device).pass("leak");
    CHECK(reasonsNow(log) == "in_use");
    log.on(device).pass("battery");
    CHECK(reasonsNow(log, "battery") == "counts");
    log.on(device).usePause();
    log.on(device).pass("leak");
    CHECK(reasonsNow(log) == "counts");
}

TEST_CASE("a check that two must see", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("needs_second = true"));
    log.department().person("Kim", {}, "2026-03-02");
    log.department().person("Robin", {});
    log.on(device).pass("leak");
    CHECK(reasonsNow(log) == "unverified");
    log.on(device).witness("Robin").pass("leak");
    CHECK(reasonsNow(log) == "unverified");  // the writer
    log.on(device).witness("Alex").pass("leak");
    CHECK(reasonsNow(log) == "unverified");  // nobody knows Alex
    log.on(device).doneBy("Kim").witness("Kim").pass("leak");
    CHECK(reasonsNow(log) == "unverified");  // the one who did it
    log.on(device).doneBy("Alex").witness("Kim").pass("leak");
    CHECK(reasonsNow(log) == "counts");
    log.on(device).at("23:59").witness("Kim").pass("leak");
    CHECK(reasonsNow(log) == "counts");
    log.on(device).at("03-03 00:00").witness("Kim").pass("leak");
    CHECK(reasonsNow(log) == "unverified");
}

TEST_CASE("who witnesses must be known before", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("needs_second = true"));
    log.on(device).at("09:00").witness("Kim").pass("leak");
    log.department().at("09:01").person("Kim", {});
    CHECK(reasonsNow(log) == "unverified");
}

TEST_CASE("all reasons that hold are given, sorted", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(R"(
needs = ["mains_power"]
needs_match = ["sensor"]
needs_second = true
after = ["zero"]
not_with = [{ position = "hme" }]
not_before = [{ event = "power_on", wait = "PT2M" }, { event = "fit hme", wait = "PT9M" }]
)",
                                        R"(
[checks.leak.measures.flow]
unit = "L/min"
required = true
[positions.sensor]
[positions.hme]
[checks.zero]
takes = "PT1M"
)"));
    log.on(device).fit("hme");
    log.on(device).useStart();
    log.on(device).check("leak", "incomplete");
    CHECK(reasonsNow(log) == "condition mains_power, in_line hme, in_use, incomplete, "
                             "measure_missing flow, mismatch sensor, order zero, power_unknown, "
                             "too_early, unverified");
    log.on(device).fail("leak");
    CHECK(status(assessed(log)) == "failed");  // a failure counts whatever holds
    CHECK(reasonsNow(log) == "counts");
}

TEST_CASE("the discounted attempt is shown while it is the latest word", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]"));
    log.on(device).check("leak", "incomplete");
    log.on(device).soil();
    CHECK(reasons(finding(assessed(log), "due leak")).empty());  // it came before the voiding
    log.on(device).check("leak", "incomplete");
    CHECK(reasons(finding(assessed(log), "due leak")) == "incomplete");
}
