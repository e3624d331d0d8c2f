// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every entry besides the way to ready and the set-up, in calm groups: what its button says, why it
// makes no sense on the unit as it is now, and its form. No button has the letter of another.
#pragma once

#include "desktop/bedside/acts/act_scene.h"

#include <vector>

namespace desktop {

enum class ActKind {
    Start, Emergency, Pause, Resume, End, SwapUnits,
    Group, PowerOn, PowerOff, Place, Soil, Note,
    Alarm, Fault, Clear, Withdraw, Release,
    Service, Waive, NoticeDone,
};

struct ActEntry {
    ActKind kind{};
    QString label;  // with the letter that presses it
};

struct ActGroup {
    QString title;
    std::vector<ActEntry> entries;
};

[[nodiscard]] std::vector<ActGroup> actGroups();

// "" where it makes sense; else why not, and what to do instead.
[[nodiscard]] QString whyNot(ActKind kind, const ActScene& scene);

// Of every kind but SwapUnits, which has a sheet of its own.
[[nodiscard]] ActForm formOf(ActKind kind, const ActScene& scene);

}  // namespace desktop
