// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking up confirmations; see confirmations.h.
#include "report/confirmations.h"

#include "rules/people.h"

#include <memory>

namespace report {

words::RecordLookup confirmationsIn(const rules::Log& log, const KnownBy& known) {
    std::map<logbook::RecordName, logbook::Record> found;
    for (const auto& [entry, confirming] : rules::confirmations(log)) {
        const auto& review = log.records()[confirming];
        if (review.at <= known.at && review.entered <= known.knownAt)
            found.emplace(log.records()[entry].name, review);
    }
    const auto reviews = std::make_shared<const decltype(found)>(std::move(found));
    return [reviews](const logbook::RecordName& entry) -> const logbook::Record* {
        const auto review = reviews->find(entry);
        return review == reviews->end() ? nullptr : &review->second;
    };
}

}  // namespace report
