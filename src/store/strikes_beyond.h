// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What strikes strike, and which of them bear on what lies behind a place. For this folder only,
// since it shows SQLite; all throw SQLite::Exception.
#pragma once

#include "store/connection.h"

#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace store {

// Nothing if it is not here, or came in later than that.
[[nodiscard]] std::optional<Place> findPlace(
    Database& database, const logbook::RecordName& name,
    std::int64_t arrivedUpTo = std::numeric_limits<std::int64_t>::max());

// Nothing if it cannot be read.
[[nodiscard]] std::optional<logbook::RecordName> targetOf(const std::string& strike);

// Of which strikes the target lies behind a place or is not here, in the log as it is when this is
// made: what comes in while it is gone through, a portion in one transaction, does not count.
class StrikesBeyond {
public:
    StrikesBeyond(Database& database, const Place& place)
        : m_database(database), m_place(place), m_last(lastArrivalIn(database)) {}

    // Looks at those of these that are here.
    void lookAt(std::span<const logbook::RecordName> strikes);
    // Looks at those after that place and up to the other.
    void lookAfter(Place after);

    [[nodiscard]] const std::vector<logbook::RecordName>& found() const { return m_found; }

private:
    void look(const logbook::RecordName& strike, const std::string& content);

    Database& m_database;
    Place m_place;
    std::int64_t m_last;  // arrival
    std::vector<logbook::RecordName> m_found;
};

}  // namespace store
