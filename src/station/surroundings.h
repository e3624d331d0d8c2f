// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What every use case is given: the clock, the zones, the language, whom to ask, and which logbook
// it is about.
#pragma once

#include "rules/zone.h"
#include "station/clock.h"
#include "station/terminal.h"
#include "words/words.h"

#include <filesystem>
#include <string>

namespace station {

// All references must outlive the call.
struct Surroundings {
    const Clock& clock;
    rules::ZoneSource zones;
    const words::Words& words;
    std::string login;  // who is signed in to the computer; told to others while the lock is held
    Terminal* terminal = nullptr;  // none: there is nobody to ask
};

struct LogbookFile {
    std::filesystem::path path;
    bool trustLocks = false;  // also on file systems whose locks may not hold
};

}  // namespace station
