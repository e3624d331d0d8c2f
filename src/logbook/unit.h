// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The units a measure may be stated in, and the conversion between those of one dimension.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace logbook {

[[nodiscard]] bool isUnit(std::string_view unit);

// Every unit, grouped by dimension, in the order a list for people shows them.
[[nodiscard]] const std::vector<std::string_view>& unitNames();

// Nothing if either is unknown or they measure different things. Pressure factors in pascals:
// cmH2O 98.0665, mmHg 133.322387415, psi 6894.757293168 (conventional values, NIST SP 811 B.8).
[[nodiscard]] std::optional<double> convert(double value, std::string_view from,
                                            std::string_view to);

// What a value in a unit can be at all, by what the unit measures: there is no less than no flow
// and no more than the whole. Only what the dimension tells; rules of the trade are narrower.
struct Bounds {
    std::optional<double> least, most;
};

// Ratios lie within 0 and the whole; flows, volumes, compliances, resistances, times and rates are
// not negative; no temperature lies below absolute zero. No bounds: pressures, voltages, currents,
// levels and plain numbers, which have a sign, and units that are none.
[[nodiscard]] Bounds boundsOf(std::string_view unit);

// Within 1e-9 of each other, relative to the larger: the same as far as a limit is concerned.
[[nodiscard]] bool sameMeasure(double a, double b);

}  // namespace logbook
