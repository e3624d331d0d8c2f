// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The table of units. A unit's value in the base of its dimension is factor * value + offset.
#include "logbook/unit.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace logbook {

namespace {

enum class Dimension {
    Pressure, Flow, Volume, Ratio, Compliance, Resistance, Time, Voltage, Current,
    ElectricalResistance, Temperature, Rate, Level, Number,
};

struct Unit {
    std::string_view name;
    Dimension dimension;
    double factor = 1;
    double offset = 0;
};

constexpr double cmH2O = 98.0665;
constexpr double hPa = 100;
constexpr double wholeInPpm = 1e6;
constexpr double absoluteZero = -273.15;  // degC

constexpr std::array<Unit, 33> units{{
    {"cmH2O", Dimension::Pressure, cmH2O},
    {"hPa", Dimension::Pressure, hPa},
    {"mbar", Dimension::Pressure, 100},
    {"kPa", Dimension::Pressure, 1000},
    {"mmHg", Dimension::Pressure, 133.322387415},
    {"bar", Dimension::Pressure, 100000},
    {"psi", Dimension::Pressure, 6894.757293168},
    {"mL/min", Dimension::Flow, 1},
    {"L/min", Dimension::Flow, 1000},
    {"mL", Dimension::Volume, 1},
    {"L", Dimension::Volume, 1000},
    {"%", Dimension::Ratio, 1e4},
    {"fraction", Dimension::Ratio, 1e6},
    {"ppm", Dimension::Ratio, 1},
    {"mL/cmH2O", Dimension::Compliance, 1 / cmH2O},
    {"mL/hPa", Dimension::Compliance, 1 / hPa},
    {"cmH2O/(L/s)", Dimension::Resistance, cmH2O},
    {"hPa/(L/s)", Dimension::Resistance, hPa},
    {"s", Dimension::Time, 1},
    {"min", Dimension::Time, 60},
    {"h", Dimension::Time, 3600},
    {"mV", Dimension::Voltage, 1},
    {"V", Dimension::Voltage, 1000},
    {"uA", Dimension::Current, 1},
    {"mA", Dimension::Current, 1000},
    {"mohm", Dimension::ElectricalResistance, 1},
    {"ohm", Dimension::ElectricalResistance, 1e3},
    {"Mohm", Dimension::ElectricalResistance, 1e9},
    {"degC", Dimension::Temperature, 1},
    {"degF", Dimension::Temperature, 5.0 / 9, -160.0 / 9},
    {"1/min", Dimension::Rate, 1},
    {"dB", Dimension::Level, 1},
    {"1", Dimension::Number, 1},
}};

const Unit* find(std::string_view name) {
    const auto found = std::find_if(units.begin(), units.end(),
                                    [name](const Unit& unit) { return unit.name == name; });
    return found == units.end() ? nullptr : &*found;
}

}  // namespace

bool isUnit(std::string_view unit) {
    return find(unit) != nullptr;
}

const std::vector<std::string_view>& unitNames() {
    static const std::vector<std::string_view> names = [] {
        std::vector<std::string_view> all;
        for (const auto& unit : units) {
            all.push_back(unit.name);
        }
        return all;
    }();
    return names;
}

std::optional<double> convert(double value, std::string_view from, std::string_view to) {
    const Unit* source = find(from);
    const Unit* target = find(to);
    if (source == nullptr || target == nullptr || source->dimension != target->dimension) {
        return std::nullopt;
    }
    if (source == target) {
        return value;
    }
    return (value * source->factor + source->offset - target->offset) / target->factor;
}

Bounds boundsOf(std::string_view unit) {
    const Unit* known = find(unit);
    if (known == nullptr) {
        return {};
    }
    switch (known->dimension) {
        case Dimension::Ratio: return {0, wholeInPpm / known->factor};
        case Dimension::Temperature: return {(absoluteZero - known->offset) / known->factor, {}};
        case Dimension::Flow:
        case Dimension::Volume:
        case Dimension::Compliance:
        case Dimension::Resistance:
        case Dimension::Time:
        case Dimension::ElectricalResistance:
        case Dimension::Rate: return {0, {}};
        case Dimension::Pressure:
        case Dimension::Voltage:
        case Dimension::Current:
        case Dimension::Level:
        case Dimension::Number: break;
    }
    return {};
}

bool sameMeasure(double a, double b) {
    return a == b || std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b));
}

}  // namespace logbook
