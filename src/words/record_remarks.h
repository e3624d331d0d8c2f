// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told of an entry beside its line: that somebody says it was not theirs, and what was
// typed with it.
#pragma once

#include "words/context.h"

#include <string>
#include <string_view>

namespace words {

// "not by Robin Sorrel, as they say", of who says that an entry under their name is not theirs.
[[nodiscard]] std::string deniedBy(const Context& context, std::string_view person);

// The line with the text that it leaves out: "Fault: noise: screen flickers".
[[nodiscard]] std::string withTypedText(const Context& context, const logbook::Record& record,
                                        const std::string& line);

}  // namespace words
