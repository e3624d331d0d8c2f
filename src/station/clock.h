// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The clock of the use cases, so that every run can be repeated at another time. Knows no computer.
#pragma once

#include "logbook/instant.h"

namespace station {

class Clock {
public:
    Clock() = default;
    Clock(const Clock&) = delete;
    Clock& operator=(const Clock&) = delete;
    virtual ~Clock() = default;

    [[nodiscard]] virtual logbook::Instant now() const = 0;
};

}  // namespace station
