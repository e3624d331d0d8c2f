// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A finding as a person is told of it: what is so, then what to do about it.
#pragma once

#include "words/context.h"

#include <string>
#include <string_view>

namespace words {

// The most telling sentence: if the last attempt at a check did not count, that and why; else what
// the finding rests on. The action is the rulebook's advice where it has one, the time to wait for
// where there is one, and the permission where it is waived.
[[nodiscard]] Sentence sentence(const Context& context, const rules::Finding& finding);

// What the finding rests on, whatever came after it: the check that is due, not the attempt at it.
[[nodiscard]] Sentence groundSentence(const Context& context, const rules::Finding& finding);

// The shortest form, for one line of a board: "leak test due".
[[nodiscard]] std::string brief(const Context& context, const rules::Finding& finding);

// Whether a finding, as "withdrawn incident", is a hold with a sheet of what to do and not to do.
[[nodiscard]] bool isSheetHold(const Context& context, std::string_view finding);

// Whether such a hold stands on the unit.
[[nodiscard]] bool sheetHoldStands(const Context& context);

// A start of use on a unit that was not enrolled then.
[[nodiscard]] Sentence unenrolledSentence(const Context& context);
[[nodiscard]] std::string unenrolledBrief(const Context& context);

// A discounted attempt at `check`: that it does not count, why, and what to do.
[[nodiscard]] Sentence discountedSentence(const Context& context, std::string_view check,
                                          const rules::Discounted& discounted);

// One reason, "in_line hme": a clause that completes the above, and its remedy.
[[nodiscard]] Sentence discountReason(const Context& context, std::string_view check,
                                      const rules::Discounted& discounted, std::string_view reason);

// What happened, as a clause: "the flow sensor was changed at 02:10".
[[nodiscard]] std::string eventClause(const Context& context, const rules::Event& event,
                                      logbook::Instant at);

}  // namespace words
