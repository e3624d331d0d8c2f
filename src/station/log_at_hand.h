// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What of a log entries are judged by, without reading all of it: a state from before everything
// that they bear on, the records after it, those of their units and of the department, and who may
// write. That state is made from a kept one, or else, in a long log, from the first record on. In a
// short log without a kept one, or where something is wrong with it, it is the whole log.
#pragma once

#include "station/open.h"
#include "station/units_log.h"
#include "words/context.h"

#include <memory>
#include <optional>
#include <vector>

namespace station {

// What will be looked at.
struct Needed {
    Devices devices{};  // units of which every record is; the department always is
    std::vector<logbook::RecordName> records{};  // looked up by name, of whatever unit
    // States are asked for from this instant on; none: no state is, and only editions, persons and
    // strikes are at hand, whatever is named above.
    std::optional<logbook::Instant> since{};
    bool isAll = false;  // the whole log: what bears on it cannot be found without
};

struct LogAtHand : WholeLog {
    // The state with which it begins, and the place up to which that goes.
    struct Beginning {
        store::Place place;
        rules::State state;
    };
    std::shared_ptr<const Beginning> beginning{};  // null: with nothing
    words::RecordLookup elsewhere{};  // finds the records that are not at hand; none: all are

    // Whether states of that instant can be told.
    [[nodiscard]] bool reaches(logbook::Instant at) const {
        return !beginning || beginning->place.at < at;
    }
};

// A stored record that cannot be read is a problem that names it where the logbook is open to be
// written, and is left out otherwise; of what is not looked at nothing is told.
[[nodiscard]] Result<LogAtHand> readAtHand(const Surroundings& surroundings,
                                           const LogbookFile& file, const store::Logbook& logbook,
                                           const Needed& needed);

// The same for persons and editions alone, which is all that signing in asks.
[[nodiscard]] Result<LogAtHand> readPeople(const Surroundings& surroundings,
                                           const LogbookFile& file);

// The log with those records as well, which come in after it.
[[nodiscard]] LogAtHand extended(const Surroundings& surroundings, const LogAtHand& log,
                                 const std::vector<logbook::Record>& records);

// By all that is known. Preconditions: a first edition; `at` is not before `since`.
[[nodiscard]] rules::State stateOf(const LogAtHand& log, logbook::Instant at);

// Null: there is no such record.
[[nodiscard]] const logbook::Record* recordIn(const LogAtHand& log,
                                              const logbook::RecordName& name);

}  // namespace station
