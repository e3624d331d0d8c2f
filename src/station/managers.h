// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether a department keeps somebody who may say who holds which role: what an entry or records
// from elsewhere would change of that. Knows no PIN.
#pragma once

#include "station/open.h"

#include <string>
#include <vector>

namespace station {

// Of an entry that is a `person` or an `adopt`, any other passes. Refused if nobody would be left
// who may enter persons, though somebody may now. The remarks otherwise: that after some day
// nobody will be, and roles that the edition does not name.
[[nodiscard]] Result<std::vector<std::string>> checkManagers(const Surroundings& surroundings,
                                                             const rules::Log& log,
                                                             const logbook::Record& record);

// Records that somebody who has signed in brings in from elsewhere.
struct PeopleBrought {
    const WholeLog& log;  // before them
    const std::vector<logbook::Record>& records;  // only those of editions and persons count
    logbook::Instant now;          // for which persons are asked
    bool byManager = false;        // whether who brings them may enter persons
    bool changeIsMeant = false;    // who may enter persons changes, and they know
};

// While the log has somebody who may enter persons, no other brings in persons and editions of a
// station that has none in it yet, nor what changes who they are. Such a change is asked about at
// the terminal, unless it is meant. What is to be told of it; nothing if nothing changes.
[[nodiscard]] Result<std::vector<std::string>> settlePeople(const Surroundings& surroundings,
                                                            const PeopleBrought& brought);

}  // namespace station
