// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A text as a shell takes it for one word, for commands that are offered to a person.
#pragma once

#include <string>
#include <string_view>

namespace words {

// As it is, or between apostrophes.
[[nodiscard]] std::string asWord(std::string_view text);

}  // namespace words
