// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The text of the Io that is told where states are to be kept and this user has no key to tell them
// by from what others put into the file: `path` is the folder that does not give or take one, empty
// if the user has none.
#pragma once

#include <string_view>

namespace store {

inline constexpr std::string_view lackingSeal = "no key of this user's";

}  // namespace store
