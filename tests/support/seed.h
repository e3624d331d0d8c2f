// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The seed of a random test: a new one each time, or the one that the variable AIRMUSTER_SEED gives
// back after a test has printed it.
#pragma once

#include <cstdint>
#include <cstdlib>
#include <random>
#include <string>

namespace support {

inline std::uint32_t seedOfRun() {
    const char* given = std::getenv("AIRMUSTER_SEED");
    return given != nullptr && *given != '\0' ? static_cast<std::uint32_t>(std::stoul(given))
                                              : std::random_device{}();
}

}  // namespace support
