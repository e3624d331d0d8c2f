// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A question to the person at the terminal that is answered by yes or no.
#pragma once

#include "station/surroundings.h"

#include <string_view>

namespace station {

// Whether somebody is there who says yes. Anything else is no: who is not sure looks again.
[[nodiscard]] bool saysYes(const Surroundings& surroundings, std::string_view question,
                           const words::Gaps& gaps);

}  // namespace station
