// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The row of the Bedside desk that says of a paused use that it goes on: it stands against nothing.
#pragma once

#include <string_view>

namespace report {

inline constexpr std::string_view resumeRow = "resume";  // its key

}  // namespace report
