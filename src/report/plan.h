// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The way to ready of one unit: a timeline that a person follows, or what stands in its way; as a
// model, as text and as JSON.
#pragma once

#include "report/board.h"
#include "rules/plan.h"

#include <optional>
#include <string>

namespace report {

struct WayToReady {
    Board board;  // of this unit alone
    rules::Plan plan;

    [[nodiscard]] words::Context context(const words::Words& words) const {
        return board.context(words, board.rows.front());
    }
};

struct PlanQuestion {
    std::string device;
    Instant asked{};
    std::optional<std::string> group;  // none: the selected one
};

// None if the unit was never enrolled by then.
[[nodiscard]] std::optional<WayToReady> makeWayToReady(rules::State state,
                                                       words::RecordLookup lookup,
                                                       const PlanQuestion& question,
                                                       Provenance provenance);

[[nodiscard]] std::string toText(const WayToReady& way, const words::Words& words,
                                 const TextOptions& options = {});

// What `plan --json` prints; `exact` and `bound` tell how far the plan is proved.
[[nodiscard]] logbook::json::Value toJson(const WayToReady& way);

}  // namespace report
