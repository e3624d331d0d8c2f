// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries that were taken under somebody's name while they had not signed in, and their word,
// later, that it was they.
#pragma once

#include "station/entry.h"
#include "station/open.h"

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
    bool isDisowned = false;     // that person has said that it was somebody else
    std::string when, what;      // "2 Mar 08:30", "Use started": the parts of the line
};

struct Waiting {
    std::vector<Unconfirmed> entries;    // in reading order
    std::vector<std::string> doubts{};  // as doubtsOf: others may be among what cannot be read
};

// All, or those of one person, by key or badge. Nobody has to sign in to look. A problem where no
// edition can be read: it names those that were taken so.
[[nodiscard]] Result<Waiting> waiting(const Surroundings& surroundings, const LogbookFile& file,
                                      const std::optional<std::string>& who = {});

// Those entries.
[[nodiscard]] Result<std::vector<Unconfirmed>> unconfirmed(
    const Surroundings& surroundings, const LogbookFile& file,
    const std::optional<std::string>& who = {});

// Those of one person, by key, that they can confirm and have not disowned; by a log read before.
[[nodiscard]] std::vector<Unconfirmed> waitingFor(const Surroundings& surroundings,
                                                  const LogbookFile& file, const WholeLog& log,
                                                  const std::string& person);

struct Confirmation {
    Writer by;
    std::vector<logbook::RecordName> records;  // none: all of them that are not disowned
    bool isMine = true;  // false: it was somebody else; the entries go on standing
};

// Writes a review of each, all or none; none where it was disowned before already.
// Those that were reviewed. Refused: an entry that is not there, is another's, or needs
// no confirmation; a writer who may not review, as the policy edition says.
[[nodiscard]] Result<std::vector<Unconfirmed>> confirm(const Surroundings& surroundings,
                                                       const LogbookFile& file,
                                                       const Confirmation& confirmation);

}  // namespace station
