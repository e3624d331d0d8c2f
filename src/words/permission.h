// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Of a unit that is ready only because something is permitted: what, and until when.
#pragma once

#include "words/context.h"

#include <string>

namespace words {

// "Ready only by permission until 4 Dec 01:34: maintenance overdue.", by the first permission that
// ends; "" where nothing is permitted that would stand in the way.
[[nodiscard]] std::string permission(const Context& context, const rules::Assessment& found);

}  // namespace words
