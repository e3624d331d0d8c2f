// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The kinds of record, and what can be said of a kind without reading a body.
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace logbook {

enum class Kind {
    Adopt, Person, Notice, Enrol, Retire, Group, Power, Move, Sighted, Software, Fit, Remove,
    Reprocess, Soil, Check, Alarm, Fault, Clear, Withdraw, Release, Waive, NoticeDone, Service,
    UseStart, UsePause, UseResume, UseEnd, Note, Review, Sign, Strike,
};

inline constexpr int kindCount = static_cast<int>(Kind::Strike) + 1;

// The word in a record: "use_start".
[[nodiscard]] std::string_view kindName(Kind kind);
[[nodiscard]] std::optional<Kind> kindOf(std::string_view name);

// Adopt, Person, Notice, Sign: `device` is "". Reprocess and Strike may be either.
[[nodiscard]] bool isDepartmentWide(Kind kind);

// Those whose `at` must equal `entered`.
[[nodiscard]] bool mustBeTimely(Kind kind);

}  // namespace logbook
