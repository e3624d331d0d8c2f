// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook held against heads of it from an earlier time: what its own chain and notes cannot
// show, since whoever writes the file can write them anew.
#pragma once

#include "store/logbook.h"

#include <tl/expected.hpp>
#include <vector>

namespace store {

// Of each station whose head is not among its records now: TailLost, the first record that is gone;
// NotAsNoted, the one that was the head, and that another chain stands up to; or Unreadable, the
// head itself, where the file is damaged. Together with a verify that finds nothing, none means
// that everything up to those heads is as it was then.
[[nodiscard]] tl::expected<std::vector<Break>, Trouble> breaksAgainst(const Logbook& logbook,
                                                                      const Heads& earlier);

}  // namespace store
