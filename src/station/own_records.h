// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the use cases that write share: an entry with its signature becomes the next record of this
// station. Checks nothing but the format.
#pragma once

#include "station/entry.h"

#include <utility>
#include <vector>

namespace station {

struct Draft {
    Entry entry;
    Signature signature;
};

// The name that the next record of this station would have now. Refused without a station.
[[nodiscard]] Result<logbook::RecordName> nextName(const Surroundings& surroundings,
                                                   const WholeLog& log);

[[nodiscard]] Result<logbook::Record> recordOf(const Surroundings& surroundings,
                                               const Draft& draft,
                                               const logbook::RecordName& name,
                                               logbook::Instant now);

// All or none, in this order. Precondition: each is a record by recordOf.
[[nodiscard]] Result<std::vector<logbook::RecordName>> appendOwn(const Surroundings& surroundings,
                                                                 store::Logbook& logbook,
                                                                 const std::vector<Draft>& drafts,
                                                                 logbook::Instant now);

// Opens the logbook to be written, reads its log and hands both to `use`.
template <class Use>
auto withLog(const Surroundings& surroundings, const LogbookFile& file, Use use)
    -> decltype(use(std::declval<store::Logbook&>(), std::declval<const WholeLog&>())) {
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    const auto log = readWholeLog(surroundings, *logbook);
    if (!log) {
        return tl::unexpected(log.error());
    }
    return use(*logbook, *log);
}

// The adoption of a rulebook from a file, or all its faults. The warnings are added to `warnings`.
[[nodiscard]] Result<Entry> adoptionOf(const Surroundings& surroundings, const Adoption& adoption,
                                       std::vector<std::string>& warnings);

}  // namespace station
