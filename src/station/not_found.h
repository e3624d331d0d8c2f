// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told where something is not found in a log: that it is not there, or, where not all can
// be read, that it may be among that.
#pragma once

#include "station/open.h"
#include "station/problem.h"

#include <string>

namespace station {

[[nodiscard]] Problem unknownDevice(const Surroundings& surroundings, const LogbookFacts& facts,
                                    const std::string& device);

// `problem` says that it is not there; where that is in doubt, the doubts are its details.
[[nodiscard]] Problem asFarAsRead(const Surroundings& surroundings, const LogbookFacts& facts,
                                  Problem problem);

}  // namespace station
