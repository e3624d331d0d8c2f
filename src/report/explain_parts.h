// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The parts of which the text on one unit is made, for explain_text.cpp and look_back_text.cpp
// only.
#pragma once

#include "report/explain.h"
#include "report/outline.h"

#include <map>
#include <string>
#include <string_view>

namespace report {

// What is said of an entry besides, "entered 40 min later".
using Marks = std::map<logbook::RecordName, std::string>;

// Where the unit is, "ICU store", or that it is not known, since when and where it was before.
[[nodiscard]] std::string placeText(const words::Context& context,
                                    const std::optional<Instant>& unsaidSince);

// "Unit KB-0142 | ICU-07 | model Larch 3 | …".
[[nodiscard]] std::string identity(const words::Context& context,
                                   const std::optional<Instant>& unsaidSince);

// "ready for Adult".
[[nodiscard]] std::string verdictText(const words::Context& context, const BoardRow& row);

struct FindingsTitle {
    std::string title;
    const Marks& marks;
    bool advises = true;  // says what to do about each, too
    bool isClockWrong = false;  // that is what puts units in doubt
};

// Each finding with what it rests on.
void addFindings(Outline& page, const words::Context& context, const BoardRow& row,
                 const FindingsTitle& title);

// Its checks, set-up, services, holds and faults, and permitted deviations.
void addState(Outline& page, const words::Context& context, const BoardRow& row);

// Its last entries.
void addRecords(Outline& page, const words::Context& context, const Explain& explain,
                const Marks& marks);

}  // namespace report
