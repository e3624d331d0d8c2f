// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Numbers as RFC 8785, section 3.2.2.3, prints them, and which literals survive as a double.
#include "logbook/json_number.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace logbook::json {

namespace {

// Room for the largest double written out, 309 figures.
using Buffer = std::array<char, 400>;

// 0.d1d2d3… times ten to the power `point`.
struct Decimal {
    std::string figures;
    int point = 0;
};

Decimal shortest(double magnitude) {
    Buffer buffer;
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), magnitude,
                                   std::chars_format::scientific).ptr;
    const std::string_view text(buffer.data(), static_cast<std::size_t>(end - buffer.data()));
    const auto mark = text.find('e');
    Decimal decimal{std::string(1, text.front()), 0};
    if (mark > 2) {
        decimal.figures += text.substr(2, mark - 2);
    }
    // from_chars takes no plus sign.
    const char* exponent = text.data() + mark + (text[mark + 1] == '+' ? 2 : 1);
    std::from_chars(exponent, end, decimal.point);
    ++decimal.point;
    return decimal;
}

std::string withExponent(const Decimal& decimal) {
    const std::string_view figures = decimal.figures;
    return fmt::format("{}{}{}e{:+}", figures.substr(0, 1), figures.size() > 1 ? "." : "",
                       figures.substr(1), decimal.point - 1);
}

// The two bounds of the exponent are ECMAScript's, Number::toString.
std::string layOut(const Decimal& decimal) {
    const std::string_view figures = decimal.figures;
    const int count = static_cast<int>(figures.size());
    if (decimal.point > 21 || decimal.point <= -6) {
        return withExponent(decimal);
    }
    if (decimal.point <= 0) {
        return fmt::format("0.{:0>{}}", figures, count - decimal.point);
    }
    if (count <= decimal.point) {
        return fmt::format("{:0<{}}", figures, decimal.point);
    }
    const auto whole = static_cast<std::size_t>(decimal.point);
    return fmt::format("{}.{}", figures.substr(0, whole), figures.substr(whole));
}

bool isWholeLiteral(std::string_view literal) {
    return literal.find_first_of(".eE") == std::string_view::npos;
}

bool saysZero(std::string_view literal) {
    return literal.substr(0, literal.find_first_of("eE")).find_first_of("123456789") ==
           std::string_view::npos;
}

bool isExactly(double number, std::string_view literal) {
    Buffer buffer;
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number,
                                   std::chars_format::fixed, 0).ptr;
    const auto length = static_cast<std::size_t>(end - buffer.data());
    return literal == std::string_view(buffer.data(), length);
}

}  // namespace

std::string numberText(double number) {
    if (!std::isfinite(number)) {
        std::fputs("json: a number that is not finite has no text\n", stderr);
        std::abort();
    }
    if (number == 0) {
        return "0";
    }
    const std::string text = layOut(shortest(std::abs(number)));
    return number < 0 ? '-' + text : text;
}

std::optional<double> parseNumber(std::string_view literal) {
    if (saysZero(literal)) {
        return 0.0;
    }
    double number = 0;
    const auto [end, error] = std::from_chars(literal.data(), literal.data() + literal.size(),
                                              number);
    if (error != std::errc() || end != literal.data() + literal.size() ||
        !std::isfinite(number) || number == 0) {
        return std::nullopt;
    }
    // Every whole number of up to 15 figures is a double.
    if (literal.size() > 15 && isWholeLiteral(literal) && !isExactly(number, literal) &&
        numberText(number) != literal) {
        return std::nullopt;
    }
    return number;
}

}  // namespace logbook::json
