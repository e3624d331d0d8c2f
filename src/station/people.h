// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who signs in at this station: its first start, PINs, badges, and the way back in when nobody can
// sign in any more. What a person may write is said by `person` records and the policy edition.
#pragma once

#include "station/entry.h"

#include <optional>
#include <string>
#include <vector>

namespace station {

struct FirstStart {
    std::string station;                  // its name, which it may have already
    std::string manager;                  // their key
    std::optional<std::string> name{};    // wanted where the log knows no person
    std::optional<Adoption> adoption{};   // by the manager; wanted where the log has no edition
    AskPin askPin{};                      // for the PIN that the manager will have
};

struct Begun {
    std::string name;                               // of the manager
    std::optional<std::string> edition{};           // where one was adopted
    std::vector<logbook::RecordName> records{};     // what was written
    std::vector<std::string> warnings{};            // of the rulebook
    Secret code{};                                  // gives a manager a new PIN, once
};

// Whether somebody still has to be made manager of this station: nobody has a PIN here.
struct Staffing {
    bool unopened = true;
    bool hasEdition = false;
    bool hasPersons = false;
};
[[nodiscard]] Result<Staffing> staffingOf(const Surroundings& surroundings,
                                          const LogbookFile& file);

// A log without an edition gets its first one, a log without persons its first, who holds every
// role that [authority] names; then the manager has a PIN here and can give others theirs. Refused
// where somebody has a PIN here already, and for somebody who may not say who holds which role.
[[nodiscard]] Result<Begun> begin(const Surroundings& surroundings, const LogbookFile& file,
                                  const FirstStart& start);

struct PinChange {
    Writer by;                // signs in
    std::string person;       // whose PIN it is: the writer's own, or by a manager anyone's
    AskPin askNew;
};

// Sets a person's first PIN, or a new one, which also unlocks it. The name of the person.
[[nodiscard]] Result<std::string> setPin(const Surroundings& surroundings, const LogbookFile& file,
                                         const PinChange& change);

// A new recovery code, by a manager who can sign in: the one before it is worth nothing any more.
[[nodiscard]] Result<Secret> renewCode(const Surroundings& surroundings, const LogbookFile& file,
                                       const Writer& by);

struct BadgeChange {
    Writer by;                         // a manager
    std::string person;
    std::optional<std::string> badge;  // none: takes it away
};

// What a scanner reads from the person's badge, so that it stands for their key when they sign in.
[[nodiscard]] Result<std::string> setBadge(const Surroundings& surroundings,
                                           const LogbookFile& file, const BadgeChange& change);

struct Recovering {
    std::string person;  // a manager
    AskPin askCode, askNew;
};

struct Recovered {
    std::string name;
    Secret code;  // takes the place of the one that was used
};

[[nodiscard]] Result<Recovered> recover(const Surroundings& surroundings, const LogbookFile& file,
                                        const Recovering& recovering);

}  // namespace station
