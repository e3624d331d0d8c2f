// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A clock that stands still until a test moves it. Time since the start of the computer goes on
// with it, but not where the test sets it.
#pragma once

#include "station/clock.h"

#include <optional>
#include <string>

namespace support {

class MovedClock : public station::Clock {
public:
    explicit MovedClock(logbook::Instant now) : m_now(now) {}
    [[nodiscard]] logbook::Instant now() const override { return m_now; }
    [[nodiscard]] std::optional<station::SinceStart> sinceStart() const override {
        if (m_start.empty()) return std::nullopt;
        return station::SinceStart{m_start, m_now - m_zero};
    }
    void moveTo(logbook::Instant now) { m_now = now; }
    void advance(logbook::Duration span) { m_now = m_now + span; }

    // Begins to count the time since the start of that name.
    void startComputer(const std::string& name) {
        m_start = name;
        m_zero = m_now;
    }
    // Sets the clock as a person does: no time goes by.
    void set(logbook::Instant now) {
        m_zero = m_zero + (now - m_now);
        m_now = now;
    }

private:
    logbook::Instant m_now;
    logbook::Instant m_zero{};  // by the clock as it stands
    std::string m_start;
};

}  // namespace support
