// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who may write what, asked at entry and again in the fold.
#pragma once

#include "rules/state.h"

#include <string>
#include <vector>

namespace rules {

struct Permission {
    bool allowed = true;
    std::vector<std::string> roles;  // where it is refused: those that may, sorted
};

// Whether `record` has effect as far as its writer is concerned, on the state before it. For a
// strike, `target` is the record struck (null if there is none such). A check or service that
// failed counts whoever wrote it; that a measure makes a check a failure is not looked at here.
[[nodiscard]] Permission mayWrite(const State& state, const logbook::Record& record,
                                  const logbook::Record* target = nullptr);

// Who struck something through, and when.
struct Striker {
    const std::string& by;
    Instant at{};
};

// The same for a strike.
[[nodiscard]] Permission mayStrike(const State& state, const Striker& striker,
                                   const logbook::Record* target);

// Whether `person` holds one of `roles` at `at`.
[[nodiscard]] bool holdsRole(const State& state, const std::string& person,
                             const std::vector<std::string>& roles, Instant at);

// Whether a `person` record before names them, not past its `until`.
[[nodiscard]] bool isKnown(const State& state, const std::string& person, Instant at);

}  // namespace rules
