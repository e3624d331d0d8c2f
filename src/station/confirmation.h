// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries that were taken under somebody's name while they had not signed in, and their word,
// later, that it was they.
#pragma once

#include "station/entry.h"

#include <optional>
#include <string>
#include <vector>

namespace station {

struct Unconfirmed {
    logbook::RecordName record;
    logbook::Instant at{};
    std::string person, name;  // whose entry it is: their key, their name
    std::string device;
    std::string line;  // "icu-1/24  2 Mar 08:30, unit KB-0142: Use started"
    bool canBeConfirmed = true;  // not what is about the whole department
    bool isKnown = true;         // whether the log knows that person now
};

// In reading order; all, or those of one person, by key or badge. Nobody has to sign in to look.
[[nodiscard]] Result<std::vector<Unconfirmed>> unconfirmed(
    const Surroundings& surroundings, const LogbookFile& file,
    const std::optional<std::string>& who = {});

struct Confirmation {
    Writer by;
    std::vector<logbook::RecordName> records;  // none: all of them
};

// Writes a review of each, all or none. Refused: an entry that is not there, is another's, or needs
// no confirmation; a writer who may not review, as the policy edition says.
[[nodiscard]] Result<std::vector<Unconfirmed>> confirm(const Surroundings& surroundings,
                                                       const LogbookFile& file,
                                                       const Confirmation& confirmation);

}  // namespace station
