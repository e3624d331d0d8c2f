// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units and the conversion between them.
#include "logbook/unit.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace logbook;

namespace {

// Each unit in the dimension that the list of units gives it.
const std::vector<std::vector<std::string>> dimensions{
    {"cmH2O", "hPa", "mbar", "kPa", "mmHg", "bar", "psi"},
    {"mL/min", "L/min"},
    {"mL", "L"},
    {"%", "fraction", "ppm"},
    {"mL/cmH2O", "mL/hPa"},
    {"cmH2O/(L/s)", "hPa/(L/s)"},
    {"s", "min", "h"},
    {"mV", "V"},
    {"uA", "mA"},
    {"mohm", "ohm", "Mohm"},
    {"degC", "degF"},
    {"1/min"},
    {"dB"},
    {"1"}};

Approx closeTo(double value) {
    return Approx(value).epsilon(1e-9).margin(0);
}

void checkConversion(double value, const char* from, double expected, const char* to) {
    INFO(value << " " << from << " in " << to);
    CHECK(convert(value, from, to).value() == closeTo(expected));
    CHECK(convert(expected, to, from).value() == closeTo(value));
}

}  // namespace

// Pascals: NIST Special Publication 811 (2008), appendix B.8, conventional values; mmHg as
// 13.5951 x 9.80665 and psi with all its figures.
TEST_CASE("Pressures convert by their factors in pascals", "[reference]") {
    checkConversion(1, "cmH2O", 0.980665, "hPa");
    checkConversion(1, "mbar", 1, "hPa");
    checkConversion(1, "kPa", 10, "hPa");
    checkConversion(1, "bar", 1000, "hPa");
    checkConversion(1, "mmHg", 1.33322387415, "hPa");
    checkConversion(1, "psi", 68.94757293168, "hPa");
}

// The same appendix, and arithmetic with its factors.
TEST_CASE("Pressures at which circuits are tested convert", "[reference]") {
    CHECK(convert(1, "hPa", "cmH2O").value() == Approx(1.019716213).epsilon(1e-9));
    CHECK(convert(1, "kPa", "mmHg").value() == Approx(7.500615758).epsilon(1e-9));
    CHECK(convert(1, "mmHg", "cmH2O").value() == closeTo(1.35951));
    CHECK(convert(50, "hPa", "cmH2O").value() == Approx(50.98581).epsilon(1e-7));
    CHECK(convert(60, "hPa", "cmH2O").value() == Approx(61.18297).epsilon(1e-7));
    checkConversion(20, "cmH2O", 19.61330, "hPa");
    checkConversion(30, "cmH2O", 29.41995, "hPa");
    checkConversion(50, "cmH2O", 49.03325, "hPa");
}

TEST_CASE("Other dimensions convert", "[unit]") {
    checkConversion(0.2, "L/min", 200, "mL/min");
    checkConversion(1.5, "L", 1500, "mL");
    checkConversion(21, "%", 0.21, "fraction");
    checkConversion(21, "%", 210000, "ppm");
    checkConversion(1, "mL/hPa", 0.980665, "mL/cmH2O");
    checkConversion(10, "cmH2O/(L/s)", 9.80665, "hPa/(L/s)");
    checkConversion(1.5, "h", 90, "min");
    checkConversion(2, "min", 120, "s");
    checkConversion(12, "mV", 0.012, "V");
    checkConversion(0.1, "mA", 100, "uA");
    checkConversion(100, "mohm", 0.1, "ohm");
    checkConversion(1, "Mohm", 1e6, "ohm");
}

// A compliance of 1 mL/cmH2O is 1 mL for 0.980665 hPa: more than 1 mL for a hectopascal.
TEST_CASE("Compliance grows where the pressure unit does", "[unit]") {
    CHECK(convert(1, "mL/cmH2O", "mL/hPa").value() == closeTo(1 / 0.980665));
}

// NIST Special Publication 811 (2008), appendix B.8: t/degC = (t/degF - 32) / 1.8.
TEST_CASE("Temperatures convert with their zero", "[reference]") {
    CHECK(convert(32, "degF", "degC").value() == Approx(0).margin(1e-12));
    checkConversion(212, "degF", 100, "degC");
    checkConversion(-40, "degF", -40, "degC");
    checkConversion(98.6, "degF", 37, "degC");
}

TEST_CASE("Units convert within their dimension and nowhere else", "[exhaustive]") {
    for (std::size_t one = 0; one < dimensions.size(); ++one) {
        for (std::size_t other = 0; other < dimensions.size(); ++other) {
            for (const auto& from : dimensions[one]) {
                for (const auto& to : dimensions[other]) {
                    INFO(from << " to " << to);
                    const auto there = convert(7.25, from, to);
                    REQUIRE(there.has_value() == (one == other));
                    if (there) {
                        CHECK(convert(*there, to, from).value() == closeTo(7.25));
                    }
                }
            }
        }
    }
}

TEST_CASE("The list of units holds each once, by dimension", "[unit]") {
    std::vector<std::string> expected;
    for (const auto& dimension : dimensions) {
        expected.insert(expected.end(), dimension.begin(), dimension.end());
    }
    CHECK(std::vector<std::string>(unitNames().begin(), unitNames().end()) == expected);
    for (const auto name : unitNames()) {
        CHECK(isUnit(name));
        CHECK(convert(0.1, name, name) == 0.1);
    }
}

TEST_CASE("Unknown units are none", "[unit]") {
    for (const char* text : {"", "cmh2o", "ml", "Pa", "cmH2O ", "l/min", "°C"}) {
        INFO(text);
        CHECK_FALSE(isUnit(text));
        CHECK_FALSE(convert(1, text, "cmH2O"));
        CHECK_FALSE(convert(1, "cmH2O", text));
        CHECK_FALSE(convert(1, text, text));
    }
}

TEST_CASE("Measures are the same within a billionth", "[unit]") {
    CHECK(sameMeasure(0, 0));
    CHECK(sameMeasure(200, 200.0000001));
    CHECK(sameMeasure(-200.0000001, -200));
    CHECK(sameMeasure(0.3, 0.1 + 0.2));
    CHECK_FALSE(sameMeasure(200, 200.000001));
    CHECK_FALSE(sameMeasure(0, 1e-12));
    CHECK_FALSE(sameMeasure(1, -1));
}

TEST_CASE("A dimension has bounds, the same in each of its units", "[exhaustive]") {
    const auto checkBounds = [](std::size_t dimension, const std::string& base,
                                std::optional<double> least, std::optional<double> most) {
        for (const auto& unit : dimensions[dimension]) {
            INFO(unit);
            const auto bounds = boundsOf(unit);
            REQUIRE(bounds.least.has_value() == least.has_value());
            REQUIRE(bounds.most.has_value() == most.has_value());
            if (least) {
                CHECK(*bounds.least == Approx(*convert(*least, base, unit)).margin(1e-9));
            }
            if (most) {
                CHECK(*bounds.most == closeTo(*convert(*most, base, unit)));
            }
        }
    };
    checkBounds(0, "hPa", {}, {});
    checkBounds(1, "L/min", 0, {});
    checkBounds(2, "L", 0, {});
    checkBounds(3, "%", 0, 100);
    checkBounds(4, "mL/hPa", 0, {});
    checkBounds(5, "hPa/(L/s)", 0, {});
    checkBounds(6, "s", 0, {});
    checkBounds(7, "V", {}, {});
    checkBounds(8, "mA", {}, {});
    checkBounds(9, "ohm", 0, {});
    checkBounds(10, "degC", -273.15, {});
    checkBounds(11, "1/min", 0, {});
    checkBounds(12, "dB", {}, {});
    checkBounds(13, "1", {}, {});
    CHECK_FALSE(boundsOf("Pa").least);
}

// Absolute zero: The International System of Units (SI brochure, 9th edition), 2.3.1, t/degC =
// T/K - 273.15; in degF by NIST Special Publication 811 (2008), appendix B.8.
TEST_CASE("No temperature lies below absolute zero", "[reference]") {
    CHECK(boundsOf("degC").least == -273.15);
    CHECK(boundsOf("degF").least.value() == Approx(-459.67).epsilon(1e-9));
}
