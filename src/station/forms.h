// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The downtime forms of a station, by their numbers. A form that it has printed stands for the
// signatures on it; any other paper stands for nothing.
#pragma once

#include "station/open.h"

#include <cstdint>
#include <string>
#include <string_view>

namespace station {

// "icu-1-F12".
[[nodiscard]] std::string formNumber(std::string_view station, std::int64_t number);

enum class FormStanding {
    Issued,    // printed by this station
    NotYet,    // its number is one of this station's, but was not given to a form yet
    Foreign,   // another's number, or other paper
};
[[nodiscard]] FormStanding standingOf(const WholeLog& log, std::string_view form);

// The record that stands for the same line of the same form: same unit, kind, time and subject.
// Null if there is none. Precondition: the record has a form.
[[nodiscard]] const logbook::Record* enteredBefore(const rules::Log& log,
                                                   const logbook::Record& record);

}  // namespace station
