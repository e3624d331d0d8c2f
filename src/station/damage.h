// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Problems that say that a logbook is damaged, or that the disk does not give it, and what becomes
// then of an entry that must not wait.
#pragma once

#include "station/problem.h"

#include <string>

namespace station {

[[nodiscard]] bool isOfDamage(const Problem& problem);
// Also where the disk gives and takes nothing.
[[nodiscard]] bool cannotBeKept(const Problem& problem);

// Whether it may have been recorded all the same.
[[nodiscard]] bool mayStand(const Problem& problem);

// The same for an entry that must not wait and was not recorded, or may not have been: it goes on
// paper, until there is a logbook for it, or what stands against it is gone.
[[nodiscard]] Problem onPaper(const words::Words& words, Problem problem);

// What is told of one that was recorded in a file of which no edition can be read: without one no
// answer is given, and `salvage` proves nothing behind it.
[[nodiscard]] std::string alsoOnPaper(const words::Words& words);

}  // namespace station
