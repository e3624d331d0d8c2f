// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the use cases that write share: an entry with its signature becomes the next record of this
// station. Checks nothing but the format.
#pragma once

#include "station/entry.h"
#include "station/log_at_hand.h"

#include <string>
#include <vector>

namespace station {

struct Draft {
    Entry entry;
    Signature signature;
};

// The name that the next record of this station would have now. Refused without a station, and as
// damage where what is noted of it cannot be so.
[[nodiscard]] Result<logbook::RecordName> nextName(const Surroundings& surroundings,
                                                   const WholeLog& log);
// The same of another one.
[[nodiscard]] Result<logbook::RecordName> nextName(const Surroundings& surroundings,
                                                   const WholeLog& log,
                                                   const std::string& station);

[[nodiscard]] Result<logbook::Record> recordOf(const Surroundings& surroundings,
                                               const Draft& draft,
                                               const logbook::RecordName& name,
                                               logbook::Instant now);

// What the entries are judged by: their units, what they name, and the state before the earliest of
// what they bear on.
[[nodiscard]] Result<Needed> neededFor(const Surroundings& surroundings,
                                       const store::Logbook& logbook,
                                       const std::vector<Entry>& entries);

// The adoption of a rulebook from a file, or all its faults. The warnings are added to `warnings`.
[[nodiscard]] Result<Entry> adoptionOf(const Surroundings& surroundings, const Adoption& adoption,
                                       std::vector<std::string>& warnings);

}  // namespace station
