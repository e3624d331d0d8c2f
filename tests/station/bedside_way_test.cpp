// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whole ways to ready by nothing but what the rows of the Bedside desk ask for, under the rulebooks
// that come with Airmuster; and every unit of the demo.
#include "station/bedside.h"

#include "station/demo.h"
#include "support/folder.h"
#include "support/moved_clock.h"
#include "support/zones.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <set>

namespace {

using logbook::Instant;
namespace json = logbook::json;

const words::Words& english() {
    return *words::Words::builtIn();
}

// One station that writes what rows ask for, as fast as they allow.
class Desk {
public:
    Desk(const std::string& rulebook, const json::Array& groups, const json::Array& features) {
        const auto text = support::bytesOf(std::filesystem::path(AIRMUSTER_SOURCE_DIR) /
                                           "data/rulebooks" / (rulebook + ".toml"));
        const auto read = rules::readRulebook(text, support::zones());
        REQUIRE(read.rulebook);
        tell("", "adopt", {{"edition", read.rulebook->edition}, {"text", text}});
        tell("", "person",
             {{"person", "rt"}, {"name", "J. Linden"}, {"roles", rolesOf(*read.rulebook)}});
        tell("", "person",
             {{"person", "rt2"}, {"name", "S. Hazel"}, {"roles", json::Array{"therapist"}}});
        tell("KB-1", "enrol",
             {{"model", "Larch"},
              {"groups", groups},
              {"features", features},
              {"commissioned", "2026-03-01"}});
        for (const auto& service : read.rulebook->services) {
            if (service.beforeFirstUse) {
                tell("KB-1", "service", {{"service", service.key}, {"outcome", "pass"}});
            }
        }
    }

    report::Bedside bedside(const std::string& group) const {
        const rules::Log log(m_records, support::zones());
        const auto state = log.stateAt(m_now, rules::unlimited);
        report::BedsideQuestion question{{"KB-1", m_now, group}};
        question.takenOut =
            report::takenOutUnused(log, state, {m_now, rules::unlimited}, "KB-1");
        auto made = report::makeBedside(state, report::lookupIn(log), question, {}, english());
        REQUIRE(made);
        return std::move(*made);
    }

    // Waits until the step may begin, does it, and writes it down when it is finished.
    void carryOut(const report::BedsideRow& row, const std::string& group) {
        if (row.finish) {
            m_now = std::max({m_now, *row.start, *row.finish});
        }
        if (const auto* check = std::get_if<report::CheckToLog>(&row.act)) {
            std::vector<station::TypedMeasure> typed;
            for (const auto& measure : check->measures) {
                const double value = measure.min ? *measure.min : measure.max.value_or(1);
                typed.push_back({measure.key, value, measure.unit});
                CHECK(report::judge(english(), measure, value, measure.unit).sentence.empty());
            }
            write(*station::passOf(english(), *check, typed));
        } else if (const auto* fit = std::get_if<report::FitToLog>(&row.act)) {
            auto part = station::statedPart(fit->putBack ? *fit->putBack : fit->proposed);
            if (!part.groups) {
                part.groups = std::vector{group};
            }
            if (fit->position == "circuit") {
                part.texts.try_emplace("layout", "coaxial");
            }
            if (fit->position == "oxygen_cell") {
                part.texts.try_emplace("technology", "galvanic");
            }
            write(station::fitOf(part));
        } else {
            const auto act = station::actOf(row.act);
            REQUIRE(act);
            write(*act);
        }
    }

    void tell(const std::string& device, std::string_view kind, json::Object body) {
        const auto now = toText(m_now);
        json::Object record{{"station", "icu-1"}, {"seq", static_cast<int>(m_records.size()) + 1},
                            {"at", now},          {"entered", now},
                            {"by", "rt"},         {"device", device},
                            {"kind", kind},       {"body", std::move(body)}};
        if (kind == "check") {
            record.emplace_back("witness", "rt2");
        }
        auto read = logbook::readRecord(record);
        REQUIRE(read);
        m_records.push_back(std::move(*read));
        m_now = m_now + logbook::Duration{1000};
    }

private:
    void write(const station::Act& act) { tell("KB-1", act.kind, act.body); }

    static json::Array rolesOf(const rules::Rulebook& rulebook) {
        std::set<std::string> roles;
        for (const auto& [kind, some] : rulebook.authority) {
            roles.insert(some.begin(), some.end());
        }
        return json::Array(roles.begin(), roles.end());
    }

    std::vector<logbook::Record> m_records;
    Instant m_now = support::utc(2026, 3, 2, 14);
};

// The rows from which nothing more is to be done; the steps taken.
int walk(Desk& desk, const std::string& group) {
    for (int steps = 0; steps < 60; ++steps) {
        const auto bedside = desk.bedside(group);
        if (!bedside.next) {
            INFO(bedside.headline);
            CHECK(bedside.identity.verdict == rules::Verdict::Ready);
            CHECK(bedside.identity.group == group);
            return steps;
        }
        const auto& row = bedside.rows.at(*bedside.next);
        INFO(steps << " " << row.key << " " << row.startText);
        desk.carryOut(row, group);
    }
    FAIL("the way does not end");
    return 0;
}

struct Way {
    std::string rulebook, group;
    json::Array groups, features;
};

}  // namespace

TEST_CASE("Following the rows brings a unit to ready under each shipped rulebook", "[unit]") {
    const std::vector<Way> ways{
        {"adult_intensive_care", "adult", {"adult", "pediatric"}, {"co2"}},
        {"adult_intensive_care", "pediatric", {"adult", "pediatric"}, {}},
        {"neonatal_unit", "neonatal", {"neonatal"}, {}},
        {"transport", "adult_transport", {"adult_transport"}, {}},
    };
    for (const auto& way : ways) {
        INFO(way.rulebook << " for " << way.group);
        Desk desk(way.rulebook, way.groups, way.features);
        CHECK(walk(desk, way.group) > 8);
        // After a patient the next way is made of the same rows.
        desk.tell("KB-1", "use_start", {{"location", "ICU 4"}});
        desk.tell("KB-1", "use_end", {});
        CHECK(walk(desk, way.group) > 3);
        // And what a start of use waits for besides.
        const auto ready = desk.bedside(way.group);
        for (const auto& row : ready.rows) {
            if (row.part == report::RowPart::AtStart) {
                CHECK(std::holds_alternative<report::CheckToLog>(row.act));
            }
        }
    }
}

TEST_CASE("Every unit of the demo is shown, in words and with what to press", "[unit]") {
    const auto end = logbook::parseInstant("2026-11-25T15:20:00Z").value();
    const rules::Log log(station::makeDemo(station::kestrelBay(), {26, end},
                                           *support::zone("America/Chicago")),
                         support::zones());
    const auto state = log.stateAt(end, rules::unlimited);
    REQUIRE(state.devices.size() > 20);
    int steps = 0;
    for (const auto& [device, unit] : state.devices) {
        INFO(device);
        report::BedsideQuestion question{{device, end, {}}};
        question.takenOut =
            report::takenOutUnused(log, state, {end, rules::unlimited}, device);
        const auto made =
            report::makeBedside(state, report::lookupIn(log), question, {}, english());
        REQUIRE(made);
        const auto plan = rules::plan(state, *unit, end, std::nullopt);
        CHECK(made->readyAt == plan.readyAt);
        std::set<std::string> keys;
        std::size_t tasks = 0;
        for (const auto& row : made->rows) {
            INFO(row.key << ": " << row.title << " / " << row.why);
            CHECK(keys.insert(row.key).second);
            CHECK_FALSE(row.title.empty());
            for (const auto* text : {&row.title, &row.why, &row.who, &row.lifters}) {
                CHECK(text->find('_') == std::string::npos);
            }
            if (row.part == report::RowPart::Step) {
                CHECK_FALSE(std::holds_alternative<std::monostate>(row.act));
                CHECK_FALSE(row.startText.empty());
                tasks += row.key != "power on";
            }
            CHECK((row.part == report::RowPart::Done) == row.record.has_value());
        }
        CHECK(tasks == (unit->use ? 0 : plan.tasks.size()));
        CHECK((made->setup.empty() == unit->retired));
        steps += static_cast<int>(tasks);
    }
    CHECK(steps > 10);
}
