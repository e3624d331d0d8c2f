// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which of the findings on a unit is told before the others: what somebody has to know at once
// stands first. Knows no sentence.
#pragma once

#include "rules/assess.h"
#include "words/context.h"

#include <string>
#include <vector>

namespace report {

// Less is graver: a hold that says what not to touch, any other hold, a stop-use notice, a fault,
// a part or group that is not right, a change that is due, a service, a check. Of the blocking;
// what does not block, or only a start of use, comes after all of them.
[[nodiscard]] int gravity(const words::Context& context, const rules::Finding& finding);

// The checks of the edition in an order that `after` allows; among those free to go by key.
[[nodiscard]] std::vector<std::string> checksInOrder(const rules::Rulebook& rulebook);

// Whether the finding is about a check: due, failed or out of date.
[[nodiscard]] bool isOfCheck(const rules::Finding& finding);

}  // namespace report
