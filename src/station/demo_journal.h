// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the people of the demo have written, in any order, and how it becomes records: in the order
// of writing, numbered by station, with the clocks as wrong as the scenario says.
#pragma once

#include "logbook/json.h"
#include "logbook/record.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace station::demo {

// An entry not yet numbered. `at` and `entered` are by the true time.
struct Draft {
    std::string station, kind, by, device;
    logbook::Instant at{}, entered{};
    logbook::json::Object body;
    logbook::json::Object more;          // done_by, witness, form, batch, confirmed
    std::optional<std::size_t> target;   // the entry that a strike or review names
    std::optional<std::size_t> movedFrom;
    bool signsHeads = false;  // `body` gets known_at, digest and heads when it is numbered
};

// From `from` until `to` the clock of `station` was ahead by so much (behind if negative).
struct WrongClock {
    std::string station;
    logbook::Instant from{}, to{};
    logbook::Duration ahead{};
};

class Journal {
public:
    // The entry's index, for `target` and `movedFrom` of later ones. An entry of a kind that cannot
    // be backdated is taken to have happened when it was entered.
    std::size_t write(Draft draft);

    // What was entered by `end`. Precondition: no target was entered after what names it.
    [[nodiscard]] std::vector<logbook::Record> records(logbook::Instant end,
                                                       const std::vector<WrongClock>& clocks) const;

private:
    std::vector<Draft> m_drafts;
};

}  // namespace station::demo
