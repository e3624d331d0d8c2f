// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which record files were brought in at this station, by whom and when. It is kept in this logbook
// only.
#pragma once

#include "station/open.h"

#include <cstdint>
#include <string>
#include <vector>

namespace station {

struct ListedImport {
    logbook::Instant at{};
    std::string when;          // as people read it
    std::string person, name;  // the key, or the login from before people had PINs; as the log
                               // calls them now, or the key again
    std::string files;         // their names, with commas between
    std::int64_t added = 0;
    std::int64_t skipped = 0;  // were here already
};

// In the order in which they were done, those in which nothing was new too. Nobody has to sign in
// to look.
[[nodiscard]] Result<std::vector<ListedImport>> importsOf(const Surroundings& surroundings,
                                                          const LogbookFile& file);

}  // namespace station
