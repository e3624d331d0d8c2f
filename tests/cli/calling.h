// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The command line called on a ward's logbook at the ward's clock; nobody answers a question.
#pragma once

#include "cli/program.h"

#include "station/ward.h"

#include <sstream>
#include <string>
#include <vector>

namespace support {

struct Called {
    int status = 0;
    std::string out, error;
};

inline Called call(Ward& ward, const std::vector<std::string>& words) {
    ScriptedTerminal terminal;
    auto surroundings = ward.surroundings;
    surroundings.terminal = &terminal;
    std::ostringstream out, error;
    const int status = cli::run(words, surroundings, {out, error});
    return {status, out.str(), error.str()};
}

}  // namespace support
