// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told of entries; see written.h.
#include "station/written.h"

#include "station/entry_meaning.h"

namespace station {

std::vector<Written> writtenOf(const OpenLog& open, const Kept& kept) {
    const auto& surroundings = open.surroundings();
    std::vector<Written> written;
    std::vector<logbook::Record> before;
    for (const auto& record : kept.records) {
        const auto& log = open.log();
        written.push_back({record.name, kept.signature.name, kept.signature.confirmed,
                           kept.signature.isKnown, kept.checked[before.size()],
                           entryMeaning(surroundings,
                                        before.empty() ? log : extended(surroundings, log, before),
                                        record)});
        before.push_back(record);
    }
    auto& told = written.front().warnings;
    told.insert(told.begin(), kept.signature.remarks.begin(), kept.signature.remarks.end());
    told.insert(told.end(), kept.warnings.begin(), kept.warnings.end());
    return written;
}

}  // namespace station
