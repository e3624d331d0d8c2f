// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writing records of the own station: one statement by one person, who has signed in for it,
// checked against the policy edition and the person's roles before it is kept.
#pragma once

#include "logbook/json.h"
#include "logbook/record.h"
#include "station/sign_in.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace station {

// What a person states. Which record it becomes, and when it was written down, is added here.
struct Entry {
    Writer by;
    std::string kind;
    std::string device{};                     // "" for the department-wide kinds
    logbook::json::Object body{};
    std::optional<logbook::Instant> at{};     // when it happened; none: now
    std::optional<std::string> doneBy{};
    std::optional<Writer> witness{};          // signs in too, unless a form bears their signature
    std::optional<std::string> form{}, batch{}, movedFrom{};
    bool namesNoPatient = false;  // the person has looked at texts that seem to name one
    bool asMeasured = false;      // the person stands by values that seem impossible
};

struct Written {
    logbook::RecordName record;
    std::string by;         // the name of the person
    bool confirmed = true;  // whether they have signed in for it
    bool byKnown = true;    // whether the log knows them: else nobody can confirm it
    std::vector<std::string> warnings;  // what the entry does not do, or what is odd about it
    std::vector<std::string> meaning{};  // for when it is kept if not for now; how the unit stands
};

// Refused, with nothing written: what is no record; a kind the person may not write; a position,
// check or service that the edition does not name; a measure that cannot be converted; a unit that
// is not enrolled then or is retired (but for the start of a use, which is always recorded); a
// deviation that may not be permitted; a value that nothing measured can be, unless the person
// stands by it; a strike of what is not there or cannot be struck; a writer
// who has not signed in and cannot.
// What must never wait is taken from such a writer too, and says `confirmed: false`: the start,
// pause, resumption and end of a use, what warns of danger (fault, withdraw, soil, alarm), and on a
// unit that is in use the parts fitted and removed and where it is moved; besides, the first
// adoption of a log, since nobody can sign in before it.
[[nodiscard]] Result<Written> writeEntry(const Surroundings& surroundings, const LogbookFile& file,
                                         const Entry& entry);

// Several entries in one act, all or none, in this order: each is held against the log with those
// before it, and refused as above. `meaning` of each is for the moment after it.
[[nodiscard]] Result<std::vector<Written>> writeTogether(const Surroundings& surroundings,
                                                         const LogbookFile& file,
                                                         const std::vector<Entry>& entries);

// Whether an entry of that kind on that unit (empty: the department) is not taken before its writer
// has signed in, with the units as they stand in `state`; an empty state where there is no edition.
[[nodiscard]] bool waitsForPin(const rules::State& state, logbook::Kind kind,
                               const std::string& device);

struct Adoption {
    Writer by;
    std::filesystem::path rulebook;
    std::optional<std::string> approvedBy{}, department{}, facility{};
};

struct Adopted {
    Written written;
    std::string edition;
    std::vector<std::string> warnings;  // of the rulebook, and as in Written
};

// A rulebook with faults is refused, and all of them are listed.
[[nodiscard]] Result<Adopted> adopt(const Surroundings& surroundings, const LogbookFile& file,
                                    const Adoption& adoption);

}  // namespace station
