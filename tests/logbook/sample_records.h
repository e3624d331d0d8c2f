// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One valid record of every kind, for tests to read and to spoil.
#pragma once

#include "logbook/json.h"
#include "logbook/kind.h"

#include <string>
#include <string_view>

namespace sample {

// The body of a valid record of the kind, every optional field given.
[[nodiscard]] std::string_view bodyOf(logbook::Kind kind);

// A line of JSON; `device` of a kind that may be either is a serial.
[[nodiscard]] std::string lineOf(logbook::Kind kind);
[[nodiscard]] std::string lineOf(logbook::Kind kind, std::string_view body);

// The line with the member at `path` ("body.part.reuse") replaced, or added, by the JSON `value`.
[[nodiscard]] std::string with(const std::string& line, std::string_view path,
                               std::string_view value);

// The line without that member.
[[nodiscard]] std::string without(const std::string& line, std::string_view path);

}  // namespace sample
