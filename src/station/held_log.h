// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A log of which states are made that will be believed, held against its own seals while they are.
// Answers do not hash; whoever keeps what they begin with does.
#pragma once

#include "station/folded_log.h"
#include "store/held_chain.h"

namespace station {

// A state rests on all records up to the heads that it is kept with, and on those before one that
// it goes on from: of the log that was folded, with that chain for `held`, the others are read and
// held as well. Problems, told as verify tells them: a record that cannot be read, or does not fit.
// Without one nothing need be feared either where a damaged file counts a page as free.
[[nodiscard]] Result<void> holdTheRest(const Surroundings& surroundings,
                                       const store::Logbook& logbook, const FoldedLog& log,
                                       store::HeldChain& chain);

}  // namespace station
