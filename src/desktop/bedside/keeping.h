// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keeping what a press states, and what is asked before: where a hold with a sheet stands on the
// unit and an entry may change what is to stay as it is; where a text looks as if it named a
// patient; where a use is ended before the last that was done in it; and where it is known that an
// entry would not count, or that the unit is not ready with the part that it fits. Nothing is
// forbidden.
#pragma once

#include "desktop/bedside/unit_panel.h"
#include "station/entry_outlook.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace desktop {

// Where such a hold stands on that unit, as the fleet was last read, and one of the acts may
// disturb it: shows the sheets with who may lift the hold, and asks. Hands on whether the acts are
// to be kept.
void askForHold(Workplace& workplace, const std::string& device,
                const std::vector<station::Act>& acts, QObject* receiver,
                std::function<void(bool)> then);

// Where an entry ends a use for a time after which the log has more of the same use, names that and
// asks. Hands on whether the entries are to be kept; where the log cannot be read they are.
void askForEnd(Workplace& workplace, const std::vector<station::Entry>& entries, QObject* receiver,
               std::function<void(bool)> then);

// Where one of the entries would not count, says why and asks. Hands on whether they are to be
// kept, and whether it was asked.
struct CountAnswer {
    bool isToBeKept = true;
    bool isKnownUncounted = false;
};
void askIfUncounted(Workplace& workplace, const std::vector<station::Entry>& entries,
                    const station::StillToCome& toCome, QObject* receiver,
                    std::function<void(CountAnswer)> then);

// What was pressed on a unit.
struct Pressed {
    std::string device;
    std::vector<station::Act> acts;
    std::vector<std::string> remarks{};  // to be agreed to besides, where it may wait for that
    // When, for what bears the time of its press: whatever comes after that takes its time.
    std::optional<logbook::Instant> at{};
};

// What somebody who was signed in pressed is kept by them or not at all: where somebody else is
// here by then, or nobody, that is told.
[[nodiscard]] bool isStillTheirs(Workplace& workplace, const std::string& device,
                                 const std::string& writer);

// Keeps what a press states, with when and who as chosen at the press, once all that is asked.
// Where an answer is no, `taken` is told that all was called off.
void keepActs(const PanelTools& tools, Pressed pressed, QObject* receiver,
              Workplace::TakeKept taken);

}  // namespace desktop
