// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By the starts of the uses that go on, and what was said after them; see unsaid_places.h.
#include "station/unsaid_places.h"

#include "report/place_unsaid.h"
#include "station/units_log.h"

#include <variant>

namespace station {

namespace {

// As if nothing was said after the start.
report::PlacesUnsaid unsaidAtStart(const Standing& standing) {
    report::PlacesUnsaid unsaid;
    for (const auto& [serial, device] : standing.state.devices) {
        if (!device->use) {
            continue;
        }
        const auto* record = standing.lookup(device->use->start.name);
        const auto* start =
            record != nullptr ? std::get_if<logbook::body::UseStart>(&record->body) : nullptr;
        // One that cannot be looked up may have said none.
        if (start == nullptr || !start->location) {
            unsaid.emplace(serial, device->use->start.at);
        }
    }
    return unsaid;
}

}  // namespace

FoundUnsaid placesUnsaid(const Surroundings& surroundings, const LogbookFile& file,
                         const Standing& standing) {
    const auto atStart = unsaidAtStart(standing);
    if (atStart.empty()) {
        return {};
    }
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return {atStart, false};
    }
    Devices devices{""};
    for (const auto& [serial, since] : atStart) {
        devices.insert(serial);
    }
    const auto log = logOfUnits(surroundings, *logbook, standing, devices);
    if (!log || *log == nullptr) {
        return {atStart, false};
    }
    FoundUnsaid found;
    for (const auto& [serial, since] : atStart) {
        const auto last = report::placeUnsaidSince((*log)->log, {standing.at, standing.knownAt},
                                                   serial);
        if (last) {
            found.places.emplace(serial, *last);
        }
    }
    return found;
}

}  // namespace station
