// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random set-ups for plans: a small rulebook with waits, unattended tasks, closing fits, choices
// and conditions, and a device under it about which something is to be done. The same seed gives
// the same set-up on every computer.
#pragma once

#include "support/random_log.h"

#include <string>

namespace support {

class RandomSetUp {
public:
    explicit RandomSetUp(std::uint32_t seed);

    [[nodiscard]] const LogBuilder& log() const { return m_log; }
    [[nodiscard]] const std::string& rulebook() const { return m_rulebook; }
    // Of the plan to make at ten o'clock.
    [[nodiscard]] const std::string& group() const { return m_group; }

private:
    std::string anyDuration(const Texts& durations);
    std::string condition();
    void addPosition(const std::string& key);
    void addCheck(const std::string& key);
    std::string voidedBy();
    void addChoice();
    void addRecords();
    void addParts();
    void addChecks();

    Random m_random;
    Texts m_positions, m_checks;
    std::string m_rulebook;
    std::string m_group = "adult";
    LogBuilder m_log;
};

}  // namespace support
