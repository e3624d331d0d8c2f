// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Texts compared whatever the case of their letters from A to Z.
#pragma once

#include <string>
#include <string_view>

namespace station {

[[nodiscard]] inline std::string lowered(std::string_view text) {
    std::string lower(text);
    for (auto& letter : lower) {
        if ('A' <= letter && letter <= 'Z') {
            letter = static_cast<char>(letter - 'A' + 'a');
        }
    }
    return lower;
}

}  // namespace station
