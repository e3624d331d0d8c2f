// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A clock that stands still until a test moves it.
#pragma once

#include "station/clock.h"

namespace support {

class MovedClock : public station::Clock {
public:
    explicit MovedClock(logbook::Instant now) : m_now(now) {}
    [[nodiscard]] logbook::Instant now() const override { return m_now; }
    void moveTo(logbook::Instant now) { m_now = now; }
    void advance(logbook::Duration span) { m_now = m_now + span; }

private:
    logbook::Instant m_now;
};

}  // namespace support
