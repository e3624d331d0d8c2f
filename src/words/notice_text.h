// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a field notice is called where another entry or a finding names it.
#pragma once

#include "words/context.h"

#include <string>
#include <string_view>

namespace words {

// Its number with its title, where the log knows one: "n26 03: Look at the hose".
[[nodiscard]] std::string noticeText(const Context& context, std::string_view key);

// Its title alone; the number where there is none.
[[nodiscard]] std::string noticeTitle(const Context& context, std::string_view key);

}  // namespace words
