// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writing records of the own station: one statement by one person, checked against the policy
// edition and the person's roles before it is kept.
#pragma once

#include "logbook/json.h"
#include "logbook/record.h"
#include "station/open.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace station {

// What a person states. Which record it becomes, and when it was written down, is added here.
struct Entry {
    std::string by;
    std::string kind;
    std::string device{};                     // "" for the department-wide kinds
    logbook::json::Object body{};
    std::optional<logbook::Instant> at{};     // when it happened; none: now
    std::optional<std::string> doneBy{}, witness{}, form{}, batch{}, movedFrom{};
};

struct Written {
    logbook::RecordName record;
    std::vector<std::string> warnings;  // what the entry does not do, or what is odd about it
    std::vector<std::string> meaning{};  // for when it is kept if not for now; how the unit stands
};

// Refused, with nothing written: what is no record; a kind the person may not write; a position,
// check or service that the edition does not name; a measure that cannot be converted; a unit that
// is not enrolled then or is retired (but for the start of a use, which is always recorded); a
// deviation that may not be permitted; a strike of what is not there or cannot be struck.
[[nodiscard]] Result<Written> writeEntry(const Surroundings& surroundings, const LogbookFile& file,
                                         const Entry& entry);

// Lines through a record: the unit is that of the record.
[[nodiscard]] Result<Written> strike(const Surroundings& surroundings, const LogbookFile& file,
                                     const std::string& by, const logbook::RecordName& target,
                                     const std::string& reason);

struct Adoption {
    std::string by;
    std::filesystem::path rulebook;
    std::optional<std::string> approvedBy{}, department{}, facility{};
};

struct Adopted {
    logbook::RecordName record;
    std::string edition;
    std::vector<std::string> warnings;  // of the rulebook, and as in Written
};

// A rulebook with faults is refused, and all of them are listed.
[[nodiscard]] Result<Adopted> adopt(const Surroundings& surroundings, const LogbookFile& file,
                                    const Adoption& adoption);

}  // namespace station
