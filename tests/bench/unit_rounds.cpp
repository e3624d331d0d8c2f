// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A unit's rounds, entry by entry; see unit_rounds.h.
#include "bench/unit_rounds.h"

#include <fmt/format.h>

#include <array>
#include <string_view>

namespace bench {

namespace {

constexpr std::int64_t second = 1000;
constexpr std::int64_t minute = 60 * second;
constexpr std::int64_t hour = 60 * minute;

struct PositionOfBench {
    const char* key;
    const char* model;
    bool sized;  // its parts state a patient group
};
constexpr std::array<PositionOfBench, 6> positions{{{"circuit", "Reed 22", true},
                                                    {"flow_sensor", "Sedge F", true},
                                                    {"exhalation_valve", "Sedge V", false},
                                                    {"expiratory_filter", "Moss 3", false},
                                                    {"hme", "Moss H", false},
                                                    {"oxygen_cell", "Fern O2", false}}};
enum Position { Circuit, FlowSensor, ExhalationValve, ExpiratoryFilter, Hme, OxygenCell };

constexpr std::array<const char*, 4> furtherChecks{"wheels", "screen", "labels", "cables"};

}  // namespace

std::string personKey(int number) { return fmt::format("p{:02}", number); }

std::string unitSerial(int unit) { return fmt::format("KB-{:05}", unit + 1); }

std::string unitGroup(int unit) { return unit % 4 == 3 ? "pediatric" : "adult"; }

std::string enrolBody(int unit) {
    static constexpr std::array<const char*, 3> models{"Larch", "Rowan", "Sorrel"};
    return fmt::format(R"({{"asset":"A-{}","commissioned":"2025-{:02}-15","features":[{}],)"
                       R"("groups":["adult","pediatric"],"location":"Store {}","model":"{}"}})",
                       40'000 + unit, unit % 12 + 1, unit % 3 == 0 ? R"("co2")" : "", unit % 7,
                       models[static_cast<std::size_t>(unit % 3)]);
}

// Entries on one unit, each a little after the one before.
class UnitRounds::Writing {
public:
    Writing(UnitRounds& rounds, int unit, std::int64_t now, const ActTaker& take)
        : m_rounds(rounds), m_unit(unit), m_now(now), m_take(take) {}

    [[nodiscard]] std::int64_t now() const { return m_now; }
    [[nodiscard]] std::string group() const { return unitGroup(m_unit); }

    void write(const char* kind, std::string body, int person = -1) {
        m_now += 20 * second + m_rounds.m_dice.below(100 * second);
        Act act{m_now - m_now % second, kind, unitSerial(m_unit), std::move(body)};
        act.by = personKey(person >= 0 ? person
                                       : static_cast<int>(m_rounds.m_dice.below(4) +
                                                          8 * m_rounds.m_dice.below(4)));
        m_take(std::move(act));
    }

    void check(const char* key, std::string_view measures, int failing = 10) {
        const bool fails = m_rounds.m_dice.chance(failing, 1000);
        write("check", fmt::format(R"({{"check":"{}","conditions":["gas_supply","mains_power",)"
                                   R"("warmed_up"]{}{},"outcome":"{}"}})",
                                   key, measures.empty() ? "" : R"(,"measures":)", measures,
                                   fails ? "fail" : "pass"));
    }

    // One in five has a new serial, others one that is known, and may stand in another unit.
    void fit(Position which) {
        const auto& position = positions[which];
        int& known = m_rounds.m_serials[which];
        std::string serial;
        if (known == 0 || m_rounds.m_dice.chance(200, 1000)) {
            serial = fmt::format(R"(,"serial":"{}-{}")", which, ++known);
        } else if (m_rounds.m_dice.chance(400, 1000)) {
            serial = fmt::format(R"(,"serial":"{}-{}")", which, 1 + m_rounds.m_dice.below(known));
        }
        const std::string groups =
            position.sized ? fmt::format(R"("groups":["{}"],)", group()) : "";
        const char* technology = which == OxygenCell ? R"(,"technology":"galvanic")" : "";
        write("fit", fmt::format(R"({{"part":{{{}"lot":"L{}","model":"{}"{}{}}},"position":"{}"}})",
                                 groups, 100 + m_rounds.m_dice.below(400), position.model, serial,
                                 technology, position.key));
    }

private:
    UnitRounds& m_rounds;
    int m_unit;
    std::int64_t m_now;
    const ActTaker& m_take;
};

UnitRounds::UnitRounds(Dice& dice, int units)
    : m_dice(dice), m_units(static_cast<std::size_t>(units)), m_serials(positions.size()) {}

std::int64_t UnitRounds::next(int number, std::int64_t now, const ActTaker& take) {
    Unit& unit = m_units[static_cast<std::size_t>(number)];
    Writing writing(*this, number, now, take);
    switch (unit.phase) {
        case Phase::ToPrepare: return prepare(unit, writing);
        case Phase::Prepared: return start(unit, writing);
        case Phase::InUse: break;
    }
    return use(unit, writing);
}

std::int64_t UnitRounds::prepare(Unit& unit, Writing& writing) {
    writing.write("reprocess",
                  R"({"level":"high","positions":["exhalation_valve","flow_sensor"]})");
    for (const Position position : {FlowSensor, ExhalationValve, OxygenCell}) {
        if (!unit.equipped || m_dice.chance(80, 1000)) writing.fit(position);
    }
    if (!unit.equipped) writing.write("service", R"({"outcome":"pass","service":"acceptance"})", 5);
    unit.equipped = true;
    writing.fit(Circuit);
    writing.fit(ExpiratoryFilter);
    if (!unit.powered) writing.write("power", R"({"on":true})");
    unit.powered = true;
    const auto leak = m_dice.below(195);
    writing.check("leak", fmt::format(R"({{"leak":{{"unit":"mL/min","value":{}}}}})", leak));
    writing.check("flow_sensor_cal", "");
    writing.fit(Hme);
    writing.check("surface_clean", "", 0);
    writing.check("alarm_test", "");
    writing.check("battery", fmt::format(R"({{"charge":{{"unit":"%","value":{}}}}})",
                                         60 + m_dice.below(40)));
    if (m_dice.chance(500, 1000)) {
        writing.check("oxygen_cal", R"({"output":{"unit":"mV","value":9.5},)"
                                    R"("set_oxygen":{"unit":"%","value":100}})");
    }
    writing.check(furtherChecks[static_cast<std::size_t>(m_dice.below(4))], "");
    if (m_dice.chance(30, 1000)) incident(writing);
    unit.phase = Phase::Prepared;
    return writing.now() + m_dice.below(24 * hour);
}

void UnitRounds::incident(Writing& writing) {
    if (m_dice.chance(500, 1000)) {
        writing.write("fault", R"({"code":"fan_noise","text":"Hums"})");
        writing.write("clear", R"({"code":"fan_noise"})", 5);
    } else {
        writing.write("withdraw", R"({"hold":"repair","reason":"Knocked over"})");
        writing.write("release", R"({"hold":"repair"})", 5);
    }
}

std::int64_t UnitRounds::start(Unit& unit, Writing& writing) {
    const auto bed = m_dice.below(60);
    writing.write("move", fmt::format(R"({{"location":"Bed {}"}})", bed));
    writing.check("gas_supply", R"({"oxygen_pressure":{"unit":"kPa","value":410}})", 0);
    writing.check("resuscitator", "", 0);
    writing.write("use_start", fmt::format(R"({{"group":"{}","location":"Bed {}"{}}})",
                                           writing.group(), bed,
                                           m_dice.chance(100, 1000) ? R"(,"precautions":true)"
                                                                    : ""));
    unit.phase = Phase::InUse;
    unit.rest = static_cast<int>(m_dice.below(5));
    return writing.now() + m_dice.below(16 * hour);
}

std::int64_t UnitRounds::use(Unit& unit, Writing& writing) {
    if (unit.rest == 0) {
        end(unit, writing);
        return writing.now() + m_dice.below(20 * hour);
    }
    --unit.rest;
    switch (m_dice.below(6)) {
        case 0:
            writing.write("use_pause", R"({"reason":"Scan"})");
            writing.write("use_resume", "{}");
            break;
        case 1: writing.fit(Hme); break;
        case 2: writing.write("alarm", R"({"code":"flow_sensor"})"); break;
        case 3: writing.check("battery", R"({"charge":{"unit":"%","value":80}})"); break;
        case 4: writing.write("sighted", R"({"location":"Bed 3"})"); break;
        default: writing.write("note", R"({"text":"Cable tied up, tubing moved to the left"})");
    }
    return writing.now() + m_dice.below(12 * hour);
}

void UnitRounds::end(Unit& unit, Writing& writing) {
    writing.write("use_end", "{}");
    writing.write("remove", R"({"position":"circuit"})");
    writing.write("remove", R"({"position":"hme"})");
    if (m_dice.chance(500, 1000)) {
        writing.write("power", R"({"on":false})");
        unit.powered = false;
    }
    writing.write("move", fmt::format(R"({{"location":"Store {}"}})", m_dice.below(7)));
    unit.phase = Phase::ToPrepare;
}

}  // namespace bench
