// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a change of a part asks for while a patient is connected, in the order in which it is done.
// For bedside_rows.cpp only.
#pragma once

#include "rules/assess.h"
#include "words/context.h"

#include <string>

namespace report {

struct ChangeOrder {
    std::string told;   // "In this order: pause the use, change: breathing circuit, leak test and
                        // resume the use."; "" where the change makes no check due
    std::string pause;  // where a pause is the first of it, why: "Change: breathing circuit"; or ""
};

// The checks are those that block and that the change makes due by the edition, with what they come
// after, in the order of `after`; a pause is among it where one of them does not count while the
// unit is in use, and is past where it is paused. The context is about a unit in use.
[[nodiscard]] ChangeOrder changeInOrder(const words::Context& context,
                                        const rules::Assessment& found,
                                        const std::string& position);

}  // namespace report
