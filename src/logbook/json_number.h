// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Numbers between JSON text and doubles; for the reader and the writer of JSON only.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace logbook::json {

// As ECMAScript prints a number, the shortest figures that read back the same: "1e+21", "0.000001".
// Precondition: the number is finite.
[[nodiscard]] std::string numberText(double number);

// `literal` is a number by JSON's grammar. Nothing if it does not survive as a double: it is too
// large, it is not zero and becomes zero, or it is written as a whole number and is neither exactly
// the double's value nor what numberText prints for it. -0 becomes 0.
[[nodiscard]] std::optional<double> parseNumber(std::string_view literal);

}  // namespace logbook::json
