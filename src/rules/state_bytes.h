// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A state as bytes, so that it can be kept and the records after it folded onto it. The same state
// always gives the same bytes. Knows nothing of where they are kept.
#pragma once

#include "rules/fold.h"
#include "rules/state.h"

#include <optional>
#include <string>
#include <string_view>

namespace rules {

// Of the engine: raise it whenever the same records fold to another state than before, and whenever
// a state has other bytes. Bytes of another revision are not read.
inline constexpr int engineRevision = 1;

// Rulebooks are not among the bytes: the one in force is named by the record that adopts it.
// Precondition: it is one of `editions`.
[[nodiscard]] std::string toBytes(const State& state, const Editions& editions);

// Nothing for whatever toBytes of this revision does not give, for an edition that is not there,
// and where what the engine takes for granted of a state does not hold.
[[nodiscard]] std::optional<State> stateFromBytes(std::string_view bytes,
                                                  const Editions& editions);

}  // namespace rules
