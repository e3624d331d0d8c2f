// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether a sweep of a write has been to all of it.
#pragma once

#include "sweep.h"

#include <catch2/catch.hpp>

namespace store::test {

// It was told that what was written may stand there.
[[nodiscard]] inline bool isToldUnconfirmed(const Outcome& outcome) {
    return outcome.told && outcome.told->code == Trouble::Code::WriteNotConfirmed;
}

// From the lock by the making of the journal to its end.
inline void checkReached(const Tally& tally) {
    CHECK(tally.fired.at(Failure::Full).at(Call::Make) > 0);
    for (const Call call : {Call::Read, Call::Write, Call::Sync, Call::Delete, Call::Lock}) {
        CHECK(tally.fired.at(Failure::Io).at(call) > 1);
        CHECK(tally.fired.at(Failure::PowerCut).at(call) > 2);
    }
}

}  // namespace store::test
