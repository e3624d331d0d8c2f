// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By looking up the entries; see later_units.h.
#include "station/later_units.h"

#include "rules/authority.h"

#include <algorithm>
#include <utility>
#include <variant>

namespace station {

namespace {

// The unit in which a part stands that a later entry puts into another one; "" for none.
std::string takenFrom(const rules::State& state, const logbook::Record& record) {
    const auto* fit = std::get_if<logbook::body::Fit>(&record.body);
    if (fit == nullptr) return "";
    const auto serial = fit->part.attributes.find("serial");
    if (serial == fit->part.attributes.end()) return "";
    const auto known = state.parts.find(rules::PartKeyView{fit->position, serial->second});
    return known == state.parts.end() ? "" : known->second->device;
}

// What is for people changes no unit, nor do persons; a strike has taken effect already, whatever
// its time.
bool bearsOnUnits(const logbook::Record& record) {
    switch (record.kind()) {
    case logbook::Kind::Note:
    case logbook::Kind::Review:
    case logbook::Kind::Sign:
    case logbook::Kind::Person:
    case logbook::Kind::Strike:
        return false;
    default:
        return true;
    }
}

// Whether a later one may change who may write the others.
bool bearsOnWriters(const rules::State& state, const logbook::Record& record) {
    return record.kind() == logbook::Kind::Person ||
           (record.kind() == logbook::Kind::Adopt && rules::mayWrite(state, record).allowed);
}

}  // namespace

// Where the clock gives whole seconds, a record of the second that it tells belongs to now.
logbook::Instant nowFor(const rules::Log& log, logbook::Instant clock, logbook::Instant knownAt) {
    auto now = clock;
    if (clock.ms % 1000 != 0) {
        return now;
    }
    for (const auto& record : log.records()) {
        if (record.entered <= knownAt && record.entered.ms < clock.ms + 1000) {
            now = std::max(now, record.entered);
        }
    }
    return now;
}

std::vector<LaterRecord> laterThan(logbook::Instant at, logbook::Instant knownAt,
                                   const rules::Log& log) {
    std::vector<LaterRecord> later;
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (record.entered > at && record.entered <= knownAt) {
            later.push_back({record.name, record.entered, !log.takesPart(index, knownAt)});
        }
    }
    return later;
}

std::set<std::string> unitsWithLater(const rules::State& state,
                                     const std::vector<LaterRecord>& later,
                                     const words::RecordLookup& lookup) {
    std::vector<const logbook::Record*> standing;  // null: it cannot be looked up
    for (const auto& each : later) {
        if (!each.isStruck) {
            standing.push_back(lookup(each.name));
        }
    }
    const bool writersChange = std::ranges::any_of(standing, [&](const auto* record) {
        return record == nullptr || bearsOnWriters(state, *record);
    });
    std::set<std::string> units;
    bool isOfAll = false;
    for (const auto* record : standing) {
        const bool bears = record == nullptr ||
                           (bearsOnUnits(*record) &&
                            (writersChange || rules::mayWrite(state, *record).allowed));
        if (!bears) {
            continue;
        }
        if (record == nullptr || record->device.empty()) {
            isOfAll = true;
        } else {
            units.insert(record->device);
            if (auto from = takenFrom(state, *record); !from.empty())
                units.insert(std::move(from));
        }
    }
    if (isOfAll) {
        for (const auto& [serial, device] : state.devices) {
            units.insert(serial);
        }
    }
    return units;
}

std::set<std::string> unitsWithLater(const Standing& standing) {
    return unitsWithLater(standing.state, standing.later, standing.lookup);
}

}  // namespace station
