// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A device as it would be after tasks of a plan, as far as conditions and events look at it: the
// parts in it and the group. For the second model of plans only.
#pragma once

#include "rules/plan_reference.h"

#include <map>

namespace plan_reference {

struct Scene {
    const rules::Rulebook& book;
    const rules::Device& device;  // for what no task changes
    std::optional<std::string> group;
    std::map<std::string, rules::PartAttributes> parts;
};

// After all tasks but the checks; with or without the closing fits.
[[nodiscard]] Scene sceneAfter(const Question& question, const Tasks& tasks, bool withClosing);

// An attribute that is not stated holds, or not, as `unknown` says.
[[nodiscard]] bool holds(const Scene& scene, const rules::Condition& condition, bool unknown);

// Whether `event`, with all done that is in the scene, voids the check.
[[nodiscard]] bool voids(const Scene& scene, const Question& question, const rules::Check& check,
                         const rules::Event& event);

// Whether a `not_with` of the check names the position with its `when` holding.
[[nodiscard]] bool isForbiddenWith(const Scene& scene, const rules::Check& check,
                                   const std::string& position);

[[nodiscard]] bool suits(const rules::PartAttributes& part, const std::string& group);

}  // namespace plan_reference
