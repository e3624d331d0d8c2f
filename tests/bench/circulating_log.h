// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A month of a large fleet whose sensors move from unit to unit all the time: the log that is
// hardest on the month. The same shape gives the same log on every computer.
#pragma once

#include "support/log_builder.h"

namespace bench {

struct LogShape {
    int records = 100'000;
    int units = 200;
    int sensors = 300;
    int latePercent = 0;    // of the entries, by up to three days
    int struckPercent = 0;  // within ten days
    bool veryLate = false;  // one of the first day, entered at the end of the month
    bool manyRules = false;  // five more positions and six more checks
};

[[nodiscard]] support::LogBuilder circulatingLog(const LogShape& shape);

}  // namespace bench
