// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who is known in a log, in which roles and until when, and how each can sign in at this station.
// No PIN, no hash and no badge is in it.
#pragma once

#include "station/open.h"

#include <optional>
#include <string>
#include <vector>

namespace station {

enum class PinHere { None, Set, Locked };  // locked: until a manager sets a new one

struct ListedPerson {
    std::string person, name;
    std::vector<std::string> roles;       // keys, as they were entered
    std::vector<std::string> roleLabels;  // the same as people read them
    std::optional<logbook::Day> until{};  // through that local day
    std::string untilText{};              // "12 Mar 2026"; "" without one
    bool isKnown = true;                  // false: past that day, or in no entry that counts
    bool isManager = false;               // may enter persons
    PinHere pin = PinHere::None;
    int wrongPins = 0;                             // in a row
    std::optional<logbook::Instant> waitsUntil{};  // no PIN is looked at before
    bool hasBadge = false;
};

struct PeopleList {
    std::optional<std::string> station{};  // this one's name, if it has one
    std::vector<ListedPerson> people{};    // by key
    bool unopened = true;                  // nobody has a PIN here
    std::vector<logbook::RecordName> unread{};
    std::vector<std::string> doubts{};  // as doubtsOf
};

// Everybody whom the log names, those who have left too, and whoever has a PIN or a badge here
// though it does not. Nobody has to sign in to look.
[[nodiscard]] Result<PeopleList> peopleOf(const Surroundings& surroundings,
                                          const LogbookFile& file);

}  // namespace station
