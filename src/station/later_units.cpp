// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By looking up the entries; see later_units.h.
#include "station/later_units.h"

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

// What a strike bears on is in the record that it names.
bool bearsOnAll(const logbook::Record& record) {
    using logbook::Kind;
    if (record.kind() == Kind::Strike) return true;
    return record.device.empty() && record.kind() != Kind::Person && record.kind() != Kind::Sign;
}

}  // namespace

std::set<std::string> unitsWithLater(const Standing& standing) {
    std::set<std::string> units;
    bool isOfAll = false;
    for (const auto& later : standing.later) {
        const auto* record = standing.lookup(later.name);
        if (record == nullptr || bearsOnAll(*record)) {
            isOfAll = true;
        } else if (!record->device.empty()) {
            units.insert(record->device);
            if (auto from = takenFrom(standing.state, *record); !from.empty())
                units.insert(std::move(from));
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
