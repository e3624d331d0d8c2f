// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether a condition holds on a device, and whether a part suits a patient group.
#pragma once

#include "rules/state.h"

#include <string>
#include <string_view>

namespace rules {

// How an attribute that a fitted part does not state is taken: as holding in `applies_when`,
// `required_when` and `when`; as not holding in `unless`.
enum class Unknown { Holds, HoldsNot };

[[nodiscard]] bool holds(const Condition& condition, const Device& device, const Rulebook& rulebook,
                         Unknown unknown);

[[nodiscard]] bool applies(const Check& check, const Device& device, const Rulebook& rulebook);
[[nodiscard]] bool applies(const Service& service, const Device& device, const Rulebook& rulebook);

// A part's own reuse, or else that of its position.
[[nodiscard]] logbook::Reuse reuseOf(const PartAttributes& part, const Position& position);

// Whether the part's groups contain `group`. A part that states none suits all, unless `strict`:
// in a position with `match_group` or named by a `needs_match`.
[[nodiscard]] bool suits(const PartAttributes& part, std::string_view group, bool strict);

// Whether the part in `position` suits `group` as `needs_match` asks; an empty position does not.
[[nodiscard]] bool fittedSuits(const Device& device, std::string_view position,
                               std::string_view group);

}  // namespace rules
