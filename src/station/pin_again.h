// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which entries are so grave that whoever has signed in types their PIN once more for them: a desk
// may have been left as it was. Knows no window and no PIN.
#pragma once

#include "station/entry.h"

#include <string_view>
#include <vector>

namespace station {

// Of lifting a hold, permitting a deviation, lining an entry through and adopting a policy edition.
// Nothing that helps a patient is among them.
[[nodiscard]] bool wantsPinAgain(std::string_view kind);
[[nodiscard]] bool wantsPinAgain(const std::vector<Entry>& entries);

}  // namespace station
