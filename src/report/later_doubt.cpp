// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Doubts by the clock; see later_doubt.h.
#include "report/later_doubt.h"

namespace report {

bool isDoubtByClock(const Provenance& provenance) {
    return provenance.problems.empty() && !provenance.devicesInDoubt.empty();
}

}  // namespace report
