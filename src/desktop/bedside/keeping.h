// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keeping what a press states: where a hold with a sheet stands on the unit and an entry may change
// what is to stay as it is, that is asked first. Nothing is forbidden.
#pragma once

#include "desktop/bedside/unit_panel.h"

#include <functional>
#include <vector>

namespace desktop {

// Whether such a hold stands and one of the acts may disturb it.
[[nodiscard]] bool disturbsHold(const report::BedsideIdentity& unit,
                                const std::vector<station::Act>& acts);

// Where that is so, shows the sheets with who may lift the hold, and asks. Hands on whether the
// acts are to be kept.
void askForHold(const PanelTools& tools, const report::BedsideIdentity& unit,
                const std::vector<station::Act>& acts, QObject* receiver,
                std::function<void(bool)> then);

// As EntryStrip::keep, once that has been asked. Where the answer is no, `taken`
// is told that all was called off.
void keepActs(const PanelTools& tools, const report::BedsideIdentity& unit,
              std::vector<station::Act> acts, QObject* receiver, Workplace::TakeKept taken);

}  // namespace desktop
