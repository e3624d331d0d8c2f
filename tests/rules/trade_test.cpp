// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Facts of the trade, each on a small rulebook of its own and on the example rulebooks: that the
// engine can say them, and that the examples do. Unless a source stands beside it, a fact here is
// common practice, no source.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

using namespace support;

namespace {

const std::string ownRules = R"(
[positions.circuit]
[positions.valve]
[positions.flow_sensor]
[positions.hme]
[positions.oxygen_cell]
[positions.co2_sensor]
[positions.airway_adapter]
reuse = "single_use"
[checks.leak]
takes = "PT2M"
not_with = [{ position = "hme", when = { "circuit.layout" = "coaxial" } }]
voided_by = [{ event = "change circuit" }, { event = "change flow_sensor" },
  { event = "fit hme", unless = { "circuit.layout" = "coaxial" } }, { event = "use_end" }]
[checks.leak.measures.leak]
unit = "mL/min"
required = true
max = { adult = 200, pediatric = 100, neonatal = 50 }
[checks.flow_sensor_cal]
takes = "PT1M"
needs_match = ["flow_sensor"]
not_with = [{ position = "hme", when = { "circuit.layout" = "coaxial" } }]
voided_by = [{ event = "fit flow_sensor" }, { event = "change circuit" }, { event = "use_end" }]
[checks.oxygen_cal]
takes = "PT2M"
applies_when = { "oxygen_cell.technology" = "galvanic" }
not_before = [{ event = "fit oxygen_cell", wait = "PT30M" }]
voided_by = [{ event = "fit oxygen_cell" }, { event = "alarm oxygen_sensor" }]
[checks.oxygen_cal.measures.set_oxygen]
unit = "%"
required = true
min = 22
breach = "discount"
[checks.co2_zero]
takes = "PT30S"
applies_when = { "co2_sensor.fitted" = true }
not_before = [{ event = "power_on", wait = "PT90S" }, { event = "fit co2_sensor", wait = "PT90S" }]
voided_by = [{ event = "fit co2_sensor", only = "new_part" },
  { event = "fit airway_adapter", only = "different reuse" }]
)";

struct Department {
    std::string name;
    std::string rulebook;
    std::string group, otherGroup;
    bool hasHme;
};

std::string example(const std::string& name) {
    std::ifstream file(AIRMUSTER_SOURCE_DIR "/data/rulebooks/" + name + ".toml");
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::vector<Department> departments() {
    return {
        {"own", book(ownRules), "adult", "neonatal", true},
        {"adult", example("adult_intensive_care"), "adult", "pediatric", true},
        {"neonatal", example("neonatal_unit"), "neonatal", "neonatal_mask", false},
        {"transport", example("transport"), "adult_transport", "pediatric_transport", true},
    };
}

// A unit of the department with a circuit and a flow sensor for its group, on since 07:00.
LogBuilder unitOf(const Department& department, const std::string& layout = "twin") {
    LogBuilder log;
    log.department().at("06:00").adopt(department.rulebook);
    log.department().person("Robin", {"therapist", "biomed", "manager"});
    log.on(device).enrol({department.group, department.otherGroup}, {"co2"});
    log.on(device).group(department.group);
    const auto groups = list({department.group});
    log.on(device).fit("circuit", {{"groups", groups}, {"layout", layout}});
    log.on(device).fit("flow_sensor", {{"serial", "F1"}, {"groups", groups}});
    log.on(device).fit("oxygen_cell", {{"technology", "galvanic"}});
    log.on(device).fit("co2_sensor", {{"serial", "S1"}});
    log.on(device).fit("airway_adapter", {{"reuse", "single_use"}});
    log.on(device).at("07:00").power(true);
    log.on(device).at("08:00").note();
    return log;
}

// An attempt with all that the rulebooks ask to be stated.
Entry attempt(LogBuilder& log) {
    Entry entry = log.on(device);
    entry.stating("mains_power").stating("gas_supply").measuring("leak", 40, "mL/min");
    entry.measuring("set_oxygen", 22, "%");
    return entry;
}

void passAll(LogBuilder& log) {
    for (const std::string check : {"leak", "flow_sensor_cal", "oxygen_cal", "co2_zero"}) {
        attempt(log).pass(check);
        CHECK(status(assessed(log), check) == "current");
    }
}

std::string standing(const LogBuilder& log, const std::string& check) {
    return status(assessed(log), check);
}

template <class Act>
void inEachDepartment(Act act) {
    for (const auto& department : departments()) {
        CAPTURE(department.name);
        act(department);
    }
}

}  // namespace

TEST_CASE("leak test and flow sensor calibration are due after a new circuit or component",
          "[unit]") {
    inEachDepartment([](const Department& department) {
        const auto groups = list({department.group});
        for (const std::string position : {"circuit", "flow_sensor"}) {
            LogBuilder log = unitOf(department);
            CHECK(standing(log, "leak") == "due");
            CHECK(standing(log, "flow_sensor_cal") == "due");
            passAll(log);
            log.on(device).fit(position, {{"groups", groups}, {"layout", "twin"}});
            CHECK(standing(log, "leak") == "due");
            CHECK(standing(log, "flow_sensor_cal") == "due");
        }
    });
}

TEST_CASE("both are due before each new patient", "[unit]") {
    inEachDepartment([](const Department& department) {
        LogBuilder log = unitOf(department);
        passAll(log);
        log.on(device).useStart();
        log.on(device).useEnd();
        CHECK(standing(log, "leak") == "due");
        CHECK(standing(log, "flow_sensor_cal") == "due");
        // What belongs to the sensors themselves stands from patient to patient.
        CHECK(standing(log, "oxygen_cal") == "current");
        CHECK(standing(log, "co2_zero") == "current");
    });
}

TEST_CASE("a flow sensor for another group makes its calibration worthless", "[unit]") {
    inEachDepartment([](const Department& department) {
        LogBuilder log = unitOf(department);
        log.on(device).fit("flow_sensor", {{"groups", list({department.otherGroup})}});
        attempt(log).pass("flow_sensor_cal");
        CHECK(reasons(finding(assessed(log), "due flow_sensor_cal")) == "mismatch flow_sensor");
        log.on(device).fit("flow_sensor", {{"groups", list({department.group})}});
        attempt(log).pass("flow_sensor_cal");
        CHECK(standing(log, "flow_sensor_cal") == "current");
    });
}

TEST_CASE("with a coaxial circuit both are done before the HME goes in", "[unit]") {
    inEachDepartment([](const Department& department) {
        if (!department.hasHme) return;
        LogBuilder log = unitOf(department, "coaxial");
        log.on(device).fit("hme");
        for (const std::string check : {"leak", "flow_sensor_cal"}) {
            attempt(log).pass(check);
            CHECK(reasons(finding(assessed(log), "due " + check)) == "in_line hme");
        }
        log.on(device).remove("hme");
        passAll(log);
        log.on(device).fit("hme");  // and then it may go in
        CHECK(standing(log, "leak") == "current");
        CHECK(standing(log, "flow_sensor_cal") == "current");
    });
}

TEST_CASE("with another circuit the leak test is done with the HME in line", "[unit]") {
    inEachDepartment([](const Department& department) {
        if (!department.hasHme) return;
        LogBuilder log = unitOf(department);
        passAll(log);
        log.on(device).fit("hme");
        CHECK(standing(log, "leak") == "due");
        attempt(log).pass("leak");
        CHECK(standing(log, "leak") == "current");
    });
}

TEST_CASE("a CO2 sensor is zeroed at its first use, warm, and not again", "[unit]") {
    inEachDepartment([](const Department& department) {
        LogBuilder log = unitOf(department);
        CHECK(standing(log, "co2_zero") == "due");
        passAll(log);
        log.on(device).at("10:00").fit("co2_sensor", {{"serial", "S2"}});
        CHECK(standing(log, "co2_zero") == "due");
        attempt(log).at("10:01:29").pass("co2_zero");  // about 90 s of warm-up
        CHECK(reasons(finding(assessed(log), "due co2_zero")) == "too_early");
        attempt(log).at("10:01:30").pass("co2_zero");
        CHECK(standing(log, "co2_zero") == "current");
        log.on(device).fit("co2_sensor", {{"serial", "S1"}});  // zeroed here before
        CHECK(standing(log, "co2_zero") == "current");
        log.on(device).at("11:00").power(false);
        log.on(device).at("11:10").power(true);
        attempt(log).at("11:11:29").pass("co2_zero");
        CHECK(standing(log, "co2_zero") == "current");
        log.on(device).remove("co2_sensor");
        CHECK(standing(log, "co2_zero") == "exempt");
    });
}

TEST_CASE("it is zeroed again when single-use and reusable adapters change places", "[unit]") {
    inEachDepartment([](const Department& department) {
        LogBuilder log = unitOf(department);
        passAll(log);
        log.on(device).fit("airway_adapter", {{"reuse", "single_use"}});
        CHECK(standing(log, "co2_zero") == "current");
        log.on(device).fit("airway_adapter", {{"reuse", "reusable"}});
        CHECK(standing(log, "co2_zero") == "due");
        attempt(log).at("10:00").pass("co2_zero");
        log.on(device).fit("airway_adapter", {{"reuse", "reusable"}});
        CHECK(standing(log, "co2_zero") == "current");
        log.on(device).fit("airway_adapter", {{"reuse", "single_use"}});
        CHECK(standing(log, "co2_zero") == "due");
    });
}

TEST_CASE("an oxygen sensor is calibrated half an hour after a new galvanic cell", "[unit]") {
    inEachDepartment([](const Department& department) {
        LogBuilder log = unitOf(department);
        passAll(log);
        log.on(device).at("10:00").fit("oxygen_cell", {{"technology", "galvanic"}});
        CHECK(standing(log, "oxygen_cal") == "due");
        CHECK(text(finding(assessed(log, "10:05"), "due oxygen_cal").notBefore) ==
              "2026-03-02T10:30:00Z");
        attempt(log).at("10:29").pass("oxygen_cal");
        CHECK(reasons(finding(assessed(log), "due oxygen_cal")) == "too_early");
        attempt(log).at("10:30").pass("oxygen_cal");
        CHECK(standing(log, "oxygen_cal") == "current");
    });
}

TEST_CASE("or on an alarm about it, and for nothing else that is done to the unit", "[unit]") {
    inEachDepartment([](const Department& department) {
        LogBuilder log = unitOf(department);
        passAll(log);
        log.on(device).fit("circuit", {{"groups", list({department.group})}});
        log.on(device).useStart();
        log.on(device).useEnd();
        log.on(device).alarm("low_battery");
        CHECK(standing(log, "oxygen_cal") == "current");
        log.on(device).alarm("oxygen_sensor");
        CHECK(standing(log, "oxygen_cal") == "due");
    });
}

TEST_CASE("with the set oxygen at 22 % or more", "[unit]") {
    inEachDepartment([](const Department& department) {
        LogBuilder log = unitOf(department);
        const auto calibrated = [&log](double oxygen, const std::string& unit) {
            log.on(device).stating("gas_supply").measuring("set_oxygen", oxygen, unit)
                .pass("oxygen_cal");
            return standing(log, "oxygen_cal");
        };
        CHECK(calibrated(21, "%") == "due");
        CHECK(reasons(finding(assessed(log), "due oxygen_cal")) == "measure set_oxygen");
        CHECK(calibrated(22, "%") == "current");
        log.on(device).alarm("oxygen_sensor");
        CHECK(calibrated(0.21, "fraction") == "due");
        CHECK(calibrated(0.22, "fraction") == "current");
    });
}

TEST_CASE("and never with a paramagnetic sensor", "[unit]") {
    inEachDepartment([](const Department& department) {
        LogBuilder log = unitOf(department);
        log.on(device).fit("oxygen_cell", {{"technology", "paramagnetic"}});
        CHECK(standing(log, "oxygen_cal") == "exempt");
        log.on(device).alarm("oxygen_sensor");
        CHECK(standing(log, "oxygen_cal") == "exempt");
        log.on(device).fit("oxygen_cell");
        CHECK(standing(log, "oxygen_cal") == "due");  // unknown: it may be galvanic
    });
}

TEST_CASE("results stand while a unit is off and stored, if its set-up is not changed", "[unit]") {
    inEachDepartment([](const Department& department) {
        LogBuilder log = unitOf(department);
        passAll(log);
        log.on(device).power(false);
        log.on(device).move("Equipment room");
        log.on(device).at("03-25 10:00").power(true);
        for (const std::string check : {"leak", "flow_sensor_cal", "oxygen_cal", "co2_zero"}) {
            CHECK(standing(log, check) == "current");
        }
        log.on(device).remove("circuit");
        CHECK(standing(log, "leak") == "due");
    });
}

TEST_CASE("a whole pre-use check of an adult unit takes about five minutes", "[unit]") {
    const auto rulebook = rules::readRulebook(example("adult_intensive_care"), zones()).rulebook;
    REQUIRE(rulebook);
    logbook::Duration all{};
    for (const std::string check : {"leak", "flow_sensor_cal", "alarm_test", "battery",
                                    "surface_clean", "gas_supply", "resuscitator"}) {
        all.ms += rulebook->check(check)->takes.ms;
    }
    CHECK(all >= minutes(4));
    CHECK(all <= minutes(6));
}

TEST_CASE("leak limits by group", "[reference]") {
    struct Case {
        std::string example, group;
        double limit;  // mL/min
    };
    const std::vector<Case> cases{
        // ISO 80601-2-12, 201.102.7.1 a): 200 mL/min at 50 (hPa, as remembered; the document that
        // was read prints cmH2O), as quoted by requirement SAV.14 of the "Mechanical Lung
        // Ventilator" case study of the ABZ 2024 conference. The standard itself was not read.
        {"adult_intensive_care", "adult", 200},
        {"transport", "adult_transport", 200},
        // From memory, confirmed by nobody: 100 mL/min at 40 hPa, 50 mL/min at 20 hPa. Not to be
        // called the standard's figures.
        {"adult_intensive_care", "pediatric", 100},
        {"transport", "pediatric_transport", 100},
        {"neonatal_unit", "neonatal", 50},
    };
    for (const auto& each : cases) {
        CAPTURE(each.example, each.group);
        const Department department{each.example, example(each.example), each.group, each.group,
                                    false};
        LogBuilder log = unitOf(department);
        const auto measured = [&log](double value, const std::string& unit) {
            log.on(device).stating("mains_power").stating("gas_supply")
                .measuring("leak", value, unit).pass("leak");
            return standing(log, "leak");
        };
        CHECK(measured(each.limit, "mL/min") == "current");
        CHECK(measured(each.limit + 1, "mL/min") == "failed");
        CHECK(measured(each.limit / 1000, "L/min") == "current");
        CHECK(measured(each.limit / 1000 + 0.001, "L/min") == "failed");
    }
}
