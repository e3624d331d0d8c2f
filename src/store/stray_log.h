// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The text of the Io that is told where a file ending in -wal lies beside a logbook that has none:
// the database would take what is in it for pages of the logbook.
#pragma once

#include <string_view>

namespace store {

inline constexpr std::string_view strayLog = "its -wal is not of it";

}  // namespace store
