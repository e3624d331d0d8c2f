// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The example rulebooks that come with the program. Each says in its first lines that no one has
// approved it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace station {

struct ShippedRulebook {
    std::string name;       // of its file, without the ending
    std::string_view text;  // as long as the program runs
};

[[nodiscard]] std::vector<ShippedRulebook> shippedRulebooks();

}  // namespace station
