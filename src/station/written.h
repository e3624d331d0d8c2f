// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told of the entries of one act once they are kept, each for the moment after it.
#pragma once

#include "station/signed_act.h"

#include <vector>

namespace station {

// `open` is the log that the act was held against. What is to be told of the whole act is told of
// the first entry. Precondition: it wrote something.
[[nodiscard]] std::vector<Written> writtenOf(const OpenLog& open, const Kept& kept);

}  // namespace station
