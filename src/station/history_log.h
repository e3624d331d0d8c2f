// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What of a log the history of a unit looks at, without reading all of it: besides the records of
// the unit and of the department, what other units tell of the parts with a serial that were ever
// in this one (see rules/attempts.h).
#pragma once

#include "station/found_records.h"
#include "station/standing.h"

#include <set>
#include <string>

namespace station {

// Of one unit after another, by one thread at a time. The first question about a unit into which a
// part with a serial was ever fitted looks through the text of all records of these kinds; the next
// ones about it look only at what came in since.
class HistoryLog {
public:
    // As withLogOf(), but that the history of the unit by that log is that by the whole log.
    [[nodiscard]] Result<WholeStanding> of(const Surroundings& surroundings,
                                           const LogbookFile& file, const Standing& standing,
                                           const std::string& device);

private:
    // For which unit and parts others were looked for.
    struct About {
        std::string device;
        std::set<std::string, std::less<>> serials;
        bool operator==(const About&) const = default;
    };
    [[nodiscard]] static About aboutIn(const rules::Log& log, const std::string& device);
    [[nodiscard]] static FoundRecords::Search searchFor(const About& about);

    About m_about;
    FoundRecords m_others;  // of other units
};

}  // namespace station
