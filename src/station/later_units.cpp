// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By looking up the entries; see later_units.h.
#include "station/later_units.h"

namespace station {

std::set<std::string> unitsWithLater(const Standing& standing) {
    using logbook::Kind;
    std::set<std::string> units;
    bool isOfAll = false;
    for (const auto& later : standing.later) {
        const auto* record = standing.lookup(later.name);
        if (record == nullptr || (record->device.empty() && record->kind() != Kind::Person &&
                                  record->kind() != Kind::Sign)) {
            isOfAll = true;
        } else if (!record->device.empty()) {
            units.insert(record->device);
        }
    }
    if (isOfAll) {
        for (const auto& [serial, device] : standing.state.devices) {
            units.insert(serial);
        }
    }
    return units;
}

}  // namespace station
