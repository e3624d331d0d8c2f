// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What of a log the parts are proposed by that a text names, without reading all of it: the fits of
// that model, of the parts known to be of it, and of that lot, on whichever unit, and what may
// strike them.
#pragma once

#include "station/found_records.h"
#include "station/standing.h"

#include <memory>
#include <set>
#include <string>

namespace station {

// Of one text after another, by one thread at a time. The first question about it looks through the
// content of all fits; the next ones look only at what came in since.
class ModelLog {
public:
    // The standing beside that log, in which the model, its spellings in other case and the lot are
    // found as in the whole log. Where something in the log cannot be read, it is the whole log.
    [[nodiscard]] Result<std::shared_ptr<const WholeStanding>> of(const Surroundings& surroundings,
                                                                  const LogbookFile& file,
                                                                  const Standing& standing,
                                                                  const std::string& text);

private:
    // Which fits were looked for.
    struct About {
        std::string lot;    // as it was read
        std::string model;  // in small letters
        std::set<std::string, std::less<>> serials;
        bool operator==(const About&) const = default;
    };
    [[nodiscard]] static About aboutIn(const rules::State& state, const std::string& text);
    [[nodiscard]] static FoundRecords::Search searchFor(const About& about);

    About m_about;
    FoundRecords m_found;
    std::shared_ptr<const WholeLog> m_log;  // of what was found
};

}  // namespace station
