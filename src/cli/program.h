// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One run of the program: the words of a call to an answer on two streams and an exit status.
#pragma once

#include "station/surroundings.h"

#include <functional>
#include <iosfwd>
#include <string>
#include <vector>

namespace cli {

struct Streams {
    std::ostream& out;
    std::ostream& error;
    // Once the answer is out: from then on nothing changes the status. May be empty.
    std::function<void(int status)> told{};
};

// `arguments` without the name of the program. The exit status: 0 done, 1 the answer is "no", 2 the
// call or its input is wrong, 3 the logbook cannot be opened, or not read as far as is needed.
[[nodiscard]] int run(const std::vector<std::string>& arguments,
                      const station::Surroundings& surroundings, const Streams& streams);

}  // namespace cli
