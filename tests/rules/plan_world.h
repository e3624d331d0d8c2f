// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Plans as short texts to compare. Knows nothing of what any plan should be.
#pragma once

#include "rules/plan.h"
#include "support/rules_world.h"

#include <string>

namespace support {

inline rules::Plan planned(const LogBuilder& log, const Asked& question) {
    const auto state = stateOf(log, question);
    return rules::plan(state, deviceOf(state, question.device), question.at, question.group);
}

inline rules::Plan planned(const LogBuilder& log, std::string_view at = "10:00") {
    return planned(log, asked(at));
}

inline rules::Plan plannedFor(const std::string& group, const LogBuilder& log) {
    return planned(log, {.at = when("10:00"), .group = group});
}

// Seconds from the instant asked.
inline std::string offset(const rules::Plan& plan, Instant instant) {
    return std::to_string((instant - plan.from).ms / 1000);
}

// "fit circuit, check leak".
inline std::string tasks(const rules::Plan& plan) {
    return joined(plan.tasks, [](const rules::Task& each) { return toText(each); });
}

// "fit circuit 0-60, check leak 60-180".
inline std::string timed(const rules::Plan& plan) {
    return joined(plan.tasks, [&plan](const rules::Task& each) {
        return toText(each) + " " + offset(plan, each.start) + "-" + offset(plan, each.finish);
    });
}

inline std::string blockers(const rules::Plan& plan) {
    return joined(plan.blockers, [](const std::string& each) { return each; });
}

inline std::string runsOut(const rules::Plan& plan) {
    return joined(plan.runsOut, [](const std::string& each) { return each; });
}

}  // namespace support
