// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A small department for tests of sentences and reports: one rulebook that can bring about every
// finding, and stories told as records. All of it is invented.
#pragma once

#include "logbook/record_reader.h"
#include "rules/log.h"
#include "support/zones.h"
#include "words/context.h"

#include <algorithm>
#include <map>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

namespace sample {

inline constexpr const char* rulebook = R"toml(
format = 1
title = "Kestrel Bay example"
edition = "2026-1"
time_zone = "America/Chicago"
confirm_every = "P7D"
[groups.adult]
label = "Adult"
par = 2
[groups.pediatric]
label = "Pediatric"
[groups.neonatal]
label = "Neonatal"
par = 1
[positions.circuit]
label = "Breathing circuit"
required = true
reuse = "single_patient"
change_after = "P7D"
spare = true
[positions.flow_sensor]
label = "Flow sensor"
required = true
match_group = true
reuse = "reusable"
reprocess_level = "high"
max_reprocess = 2
[positions.exhalation_valve]
label = "Exhalation valve"
reuse = "reusable"
reprocess_level = "high"
[positions.expiratory_filter]
label = "Expiratory filter"
reuse = "single_use"
[positions.oxygen_sensor]
label = "Oxygen sensor"
[positions.hme]
label = "HME"
[positions.humidifier]
label = "Heated humidifier"
[positions.water_trap]
label = "Water trap"
[choices.humidification]
label = "Humidification"
positions = ["hme", "humidifier"]
[conflicts.trap_without_humidifier]
label = "Water trap with an HME"
when = { "hme.fitted" = true, "water_trap.fitted" = true }
[checks.leak]
label = "Leak test"
takes = "PT2M"
waivable = true
needs_match = ["flow_sensor"]
not_with = [ { position = "hme" } ]
voided_by = [ { event = "change circuit" }, { event = "use_end" }, { event = "clear *" },
              { event = "alarm *" }, { event = "soil" }, { event = "move" } ]
[checks.leak.measures.leak]
label = "Leak"
unit = "mL/min"
max = { adult = 200, pediatric = 100, neonatal = 50 }
[checks.oxygen_cal]
label = "Oxygen sensor calibration"
takes = "PT5M"
valid_for = "P1D"
voided_by = [ { event = "fit oxygen_sensor" } ]
not_before = [ { event = "fit oxygen_sensor", wait = "PT30M" },
               { event = "power_on", wait = "PT2M" } ]
[checks.alarm_test]
label = "Alarm test"
takes = "PT3M"
needs = ["mains_power"]
needs_second = true
after = ["leak"]
voided_by = [ { event = "use_end" } ]
[checks.battery]
label = "Battery test"
takes = "PT1M"
blocks = false
fail_blocks = false
voided_by = [ { event = "power_off" } ]
[checks.battery.measures.charge]
label = "Charge"
unit = "%"
required = true
min = 90
breach = "discount"
[checks.bedside]
label = "Bedside check"
takes = "PT1M"
blocks = "start"
[services.acceptance]
label = "Acceptance test"
before_first_use = true
due_after = ["clear *"]
[services.maintenance]
label = "Preventive maintenance"
every = "P12M"
grace = "P30D"
[holds.incident]
label = "Held after an incident"
release_by = ["risk_manager"]
sheet = ["Do not clean, reset, switch off or take parts.", "Call Risk Management."]
[holds.repair]
label = "Repair"
[faults.fan_noise]
label = "Fan noise"
[faults.worn_wheel]
label = "Worn wheel"
blocking = false
[authority]
clear = ["biomed"]
release = ["biomed"]
service = ["biomed"]
waive = ["biomed", "risk_manager"]
[labels.roles]
biomed = "Biomedical engineer"
risk_manager = "Risk manager"
[labels.conditions]
mains_power = "Mains power"
[labels.alarms]
low_supply = "Low gas supply"
)toml";

// "14 02:10" or "14 02:10:22" is that local time in November 2026, when Chicago is six hours behind
// UTC.
inline logbook::Instant local(const std::string& text) {
    const auto two = [&](std::size_t at) { return std::stoi(text.substr(at, 2)); };
    const int seconds = text.size() > 8 ? two(9) : 0;
    return support::utc(2026, 11, static_cast<unsigned>(two(0)), two(3) + 6, two(6)) +
           logbook::Duration{seconds * 1000};
}

// Records in the order they are told; each is entered when it happens unless told otherwise.
class Story {
public:
    Story() {
        tell("01 06:00", "person",
             R"({"person":"lead","name":"M. Alder","roles":["biomed","risk_manager"]})", "");
        tell("01 06:00", "person", R"({"person":"rt1","name":"J. Linden","roles":["rt"]})", "");
        tell("01 06:00", "person", R"({"person":"rt2","name":"S. Hazel","roles":["rt"]})", "");
        logbook::json::Object adopt{{"edition", "2026-1"},
                                    {"text", rulebook},
                                    {"department", "Respiratory Care"},
                                    {"facility", "Kestrel Bay Hospital"}};
        tell("01 06:00", "adopt", logbook::json::canonical(logbook::json::Value(adopt)), "");
    }

    Story& as(const std::string& person) {
        m_by = person;
        return *this;
    }
    Story& on(const std::string& station) {
        m_station = station;
        return *this;
    }
    Story& unit(const std::string& serial) {
        m_device = serial;
        return *this;
    }
    // The next record is entered then.
    Story& enteredAt(const std::string& time) {
        m_entered = time;
        return *this;
    }
    // Further members of the next record, `"witness":"rt2"`.
    Story& with(const std::string& members) {
        m_more = "," + members;
        return *this;
    }

    Story& tell(const std::string& at, const std::string& kind, const std::string& body = "{}") {
        return tell(at, kind, body, m_device);
    }

    Story& tell(const std::string& at, const std::string& kind, const std::string& body,
                const std::string& device) {
        const auto seq = ++m_seq[m_station];
        const auto entered = local(m_entered.empty() ? at : m_entered);
        m_lines.push_back(R"({"station":")" + m_station + R"(","seq":)" + std::to_string(seq) +
                          R"(,"at":")" + logbook::toText(local(at)) + R"(","entered":")" +
                          logbook::toText(entered) + R"(","by":")" + m_by + R"(","device":")" +
                          device + R"(","kind":")" + kind + R"(","body":)" + body + m_more + "}");
        m_entered.clear();
        m_more.clear();
        return *this;
    }

    // Enrolled, accepted, complete and checked at "10 08:00" for adults.
    Story& ready() {
        const auto before = m_by;
        tell("10 07:00", "enrol",
             R"({"model":"Larch 3","groups":["adult","pediatric","neonatal"],"features":[],)"
             R"("commissioned":"2026-06-01","asset":"A-0142","label":"ICU-07","location":"ICU"})");
        as("lead").tell("10 07:00", "service", R"({"service":"acceptance","outcome":"pass"})");
        as("lead").tell("10 07:00", "service", R"({"service":"maintenance","outcome":"pass"})");
        as(before).tell("10 07:10", "power", R"({"on":true})");
        tell("10 07:10", "group", R"({"group":"adult"})");
        fit("10 07:20", "circuit", R"("lot":"4471")");
        const auto sensor = m_device == "KB-0142" ? std::string("FS-1") : "FS-" + m_device;
        fit("10 07:20", "flow_sensor",
            R"("serial":")" + sensor + R"(","groups":["adult","pediatric"])");
        fit("10 07:20", "oxygen_sensor", "");
        fit("10 07:20", "humidifier", "");
        return check("10 08:00");
    }

    Story& fit(const std::string& at, const std::string& position, const std::string& part) {
        return tell(at, "fit", R"({"position":")" + position + R"(","part":{)" + part + "}}");
    }

    // Every check passed.
    Story& check(const std::string& at) {
        pass(at, "leak", R"(,"measures":{"leak":{"value":80,"unit":"mL/min"}})");
        pass(at, "oxygen_cal", "");
        with(R"("witness":"rt2")").pass(at, "alarm_test", R"(,"conditions":["mains_power"])");
        pass(at, "battery", R"(,"measures":{"charge":{"value":97,"unit":"%"}})");
        return pass(at, "bedside", "");
    }

    Story& pass(const std::string& at, const std::string& check, const std::string& more) {
        return tell(at, "check", R"({"check":")" + check + R"(","outcome":"pass")" + more + "}");
    }

    [[nodiscard]] std::vector<logbook::Record> records() const {
        std::vector<logbook::Record> read;
        for (const auto& line : m_lines) {
            auto record = logbook::readRecord(line);
            if (!record) throw std::runtime_error("no record: " + line);
            read.push_back(std::move(*record));
        }
        return read;
    }

private:
    std::vector<std::string> m_lines;
    std::map<std::string, int> m_seq;
    std::string m_station = "icu-1";
    std::string m_by = "rt1";
    std::string m_device = "KB-0142";
    std::string m_entered;
    std::string m_more;
};

// What a story amounts to at an instant.
struct Scene {
    Scene(const Story& story, const std::string& time)
        : log(story.records(), support::zones()),
          asked(local(time)),
          state(log.stateAt(asked, rules::unlimited)) {
        if (!log.faults().empty()) throw std::runtime_error("the sample rulebook is refused");
    }

    [[nodiscard]] words::RecordLookup lookup() const {
        return [this](const logbook::RecordName& name) -> const logbook::Record* {
            const auto found = log.find(name);
            return found ? &log.records()[*found] : nullptr;
        };
    }

    [[nodiscard]] words::Context context(const std::string& device = "KB-0142") const {
        return {*words::Words::builtIn(), state,   state.device(device), asked,
                assess(device).group,     lookup()};
    }

    [[nodiscard]] rules::Assessment assess(const std::string& device = "KB-0142") const {
        const auto* found = state.device(device);
        if (!found) return {};
        return rules::assess(state, *found, {.at = asked, .group = group});
    }

    rules::Log log;
    logbook::Instant asked;
    rules::State state;
    std::optional<std::string> group;
};

}  // namespace sample
