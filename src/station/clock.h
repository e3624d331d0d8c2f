// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The clock of the use cases, so that every run can be repeated at another time. Knows no computer.
#pragma once

#include "logbook/instant.h"

#include <optional>
#include <string>

namespace station {

// How long a computer has been running, asleep or not: what no setting of its clock changes.
struct SinceStart {
    std::string start;  // names this start of the computer
    logbook::Duration span{};
};

class Clock {
public:
    Clock() = default;
    Clock(const Clock&) = delete;
    Clock& operator=(const Clock&) = delete;
    virtual ~Clock() = default;

    [[nodiscard]] virtual logbook::Instant now() const = 0;

    // None where it is not known.
    [[nodiscard]] virtual std::optional<SinceStart> sinceStart() const { return std::nullopt; }
};

}  // namespace station
