// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a change of a part asks for while a patient is connected, and what has to be taken out
// before a check; in the order in which it is done. For bedside_rows.cpp only.
#pragma once

#include "report/bedside.h"
#include "rules/assess.h"
#include "words/context.h"

#include <string>
#include <vector>

namespace report {

struct ChangeOrder {
    std::string told;   // "In this order: pause the use, change: breathing circuit, leak test and
                        // resume the use."; "" where the change makes no check due
    std::string pause;  // where a pause is the first of it, why: "Change: breathing circuit"; or ""
};

// The checks are those that block and that the change makes due by the edition, with what they come
// after, in the order of `after`; what is in line of one of them is taken out before it, and goes
// back after it. A pause is among it where one of them does not count while the unit is in use, and
// is past where it is paused. The context is about a unit in use.
[[nodiscard]] ChangeOrder changeInOrder(const words::Context& context,
                                        const rules::Assessment& found,
                                        const std::string& position);

// Puts the rows of a unit in use, those of its findings, into an order in which no check is
// carried out with a part in line that spoils it. Where the use is paused, what is to be taken out
// gets a row before them, and what is to be fitted there comes after them; else the first of those
// checks says what it takes. Of a paused use the last row is that it goes on, which is offered once
// nothing is left that blocks and is put right at the unit.
void putInOrder(const words::Context& context, const rules::Assessment& found,
                std::vector<BedsideRow>& rows);

}  // namespace report
