// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A terminal at which a reader types what a page shows, and a PIN where one is asked for.
#pragma once

#include <map>
#include <string>

namespace docs {

struct Typist {
    std::map<std::string, std::string> pins;  // by the name of the person
    std::string said{};  // all that has stood on the terminal
};

struct Session {
    int status = -1;  // exit status of the script
    Typist typist;    // afterwards
};

// Runs the script by sh at a terminal of its own. A line "PIN: 731905" that it prints is the new
// PIN for the question that comes next; a recovery code is typed as it was last shown. Ends the
// script if it asks for what the typist does not know, or says nothing for two minutes.
[[nodiscard]] Session typeAtTerminal(const std::string& script, Typist typist);

}  // namespace docs
