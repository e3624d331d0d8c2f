// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What each finding rests on, in words, by what it is about. For finding_words.cpp and its
// neighbours only.
#pragma once

#include "words/context.h"

namespace words {

[[nodiscard]] Sentence deviceGround(const Context& context, const rules::Finding& finding);
[[nodiscard]] Sentence serviceGround(const Context& context, const rules::Finding& finding);
[[nodiscard]] Sentence partGround(const Context& context, const rules::Finding& finding);
[[nodiscard]] Sentence checkGround(const Context& context, const rules::Finding& finding);

// The rulebook's advice, or else `action`.
[[nodiscard]] std::string advisedOr(const Context& context, const rules::Named* named,
                                    std::string action);

// A measure out of limits as a record states it; `value` in the rulebook's unit.
struct OutOfLimits {
    bool over = false;
    double value = 0;
    double limit = 0;
    bool byGroup = false;
};
[[nodiscard]] std::optional<OutOfLimits> outOfLimits(const rules::MeasureRule& rule,
                                                     const logbook::Measure& measure,
                                                     const std::optional<std::string>& group);

// Value and limit so that they look different where they are.
struct Compared {
    std::string value, limit;
};
[[nodiscard]] Compared compared(const Words& words, const OutOfLimits& breach,
                                const std::string& unit);

}  // namespace words
