// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The whole state at one place in the reading order, kept so that only the records after it need be
// folded. What the bytes say is the rules engine's; here they are bytes.
#pragma once

#include "store/heads.h"
#include "store/row.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace store {

struct Snapshot {
    Place place{};             // that of the last record in it
    std::int64_t arrival = 0;  // records that arrived later are not in it
    Heads heads{};             // of each station when it was made
    // Strikes at or before the place whose targets lie after it or are not here: they bear on what
    // is folded onto it.
    std::vector<logbook::RecordName> strikes{};
    int engine = 0;      // the revision of the rules engine that made it
    Hash rulebooks{};    // of the editions adopted up to the place, as whoever made it hashes them
    std::string bytes{};
    bool operator==(const Snapshot&) const = default;
};

// Which one is wanted: the newest that fits.
struct SnapshotQuestion {
    logbook::Instant at{};           // that holds nothing that happened later
    int engine = 0;
    std::optional<Place> before{};   // older than one that did not do
};

// One that is kept, as far as can be told without its bytes.
struct KeptSnapshot {
    Place place{};
    std::int64_t arrival = 0;
    int engine = 0;
    bool isValid = false;  // nothing that came in since reaches before its place
};

// Over all fields.
[[nodiscard]] Hash hashOf(const Snapshot& snapshot);

}  // namespace store
