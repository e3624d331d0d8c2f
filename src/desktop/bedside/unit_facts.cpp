// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking up; see unit_facts.h.
#include "desktop/bedside/unit_facts.h"

#include "desktop/shell/text.h"
#include "words/shown.h"

#include <QCoreApplication>
#include <algorithm>
#include <cassert>
#include <map>

namespace desktop {

const rules::Device& deviceOf(const UnitView& unit) {
    const auto* device = unit.fleet->standing->state.device(unit.bedside.identity.device);
    assert(device != nullptr);
    return *device;
}

const rules::Rulebook& rulebookOf(const UnitView& unit) {
    return *unit.fleet->standing->state.rulebook;
}

words::Context contextOf(const UnitView& unit, const words::Words& words) {
    const auto& standing = *unit.fleet->standing;
    return {words,        standing.state, &deviceOf(unit),
            standing.at,  unit.bedside.identity.group,
            unit.lookup};
}

const std::vector<rules::Finding>& findingsOf(const UnitView& unit) {
    const auto& rows = unit.fleet->board.rows;
    const auto row = std::ranges::find_if(rows, [&](const report::BoardRow& each) {
        return each.assessment.device == unit.bedside.identity.device;
    });
    static const std::vector<rules::Finding> none;
    return row == rows.end() ? none : row->assessment.findings;
}

QString unitLine(const report::BedsideIdentity& unit) {
    QStringList parts{shownText(unit.serial)};
    for (const auto& each : {unit.label, unit.place})
        if (!each.empty()) parts << shownText(each);
    return parts.join(QStringLiteral(" · "));
}

QString describedUnit(const rules::State& state, const std::string& serial) {
    QStringList texts{shownText(words::shown(serial))};
    if (const auto* device = state.device(serial)) {
        if (device->enrolment.asset) texts << shownText(words::shown(*device->enrolment.asset));
        texts << shownText(words::shown(device->enrolment.model));
        if (!device->location.empty()) texts << shownText(words::shown(device->location));
    }
    return texts.join(QStringLiteral(" · "));
}

QString whoMayEnter(const UnitView& unit, const words::Words& words, logbook::Kind kind) {
    const auto context = contextOf(unit, words);
    const auto roles = words::rolesFor(context, kind);
    if (roles.empty()) return {};
    return QCoreApplication::translate("desktop::UnitFacts", "May be entered by: %1.")
        .arg(shownText(words::rolesWithPeople(context, roles)));
}

bool isUnitCode(const FleetView& fleet, const QString& text) {
    const auto code = text.trimmed();
    const auto is = [&code](const std::string& each) {
        return shownText(each).compare(code, Qt::CaseInsensitive) == 0;
    };
    for (const auto& [serial, device] : fleet.standing->state.devices)
        if (is(serial) || (device->enrolment.asset && is(*device->enrolment.asset))) return true;
    return false;
}

QString codeAtEnd(const FleetView& fleet, const QString& text) {
    constexpr qsizetype fewestLetters = 4;
    qsizetype most = 0;
    const auto look = [&](const std::string& each) {
        const auto code = shownText(each);
        if (code.size() >= fewestLetters && text.endsWith(code, Qt::CaseInsensitive))
            most = std::max(most, code.size());
    };
    const auto& state = fleet.standing->state;
    for (const auto& [serial, device] : state.devices) {
        look(serial);
        if (device->enrolment.asset) look(*device->enrolment.asset);
    }
    for (const auto& [key, part] : state.parts) look(key.second);
    return text.right(most);
}

std::vector<std::string> knownPlaces(const UnitView& unit, std::size_t most) {
    std::map<std::string, int> units;
    for (const auto& [serial, device] : unit.fleet->standing->state.devices)
        if (!device->location.empty()) ++units[device->location];
    std::vector<std::string> places;
    for (const auto& [place, count] : units) places.push_back(place);
    std::ranges::stable_sort(places, [&](const auto& a, const auto& b) {
        return units[a] > units[b];
    });
    if (places.size() > most) places.resize(most);
    return places;
}

std::vector<std::string> placesInUse(const UnitView& unit, std::size_t most) {
    std::vector<const rules::Device*> inUse;
    for (const auto& [serial, device] : unit.fleet->standing->state.devices)
        if (device->use && !device->location.empty()) inUse.push_back(&*device);
    std::ranges::stable_sort(inUse, [](const auto* a, const auto* b) {
        return a->use->start.at > b->use->start.at;
    });
    std::vector<std::string> places;
    for (const auto* device : inUse) {
        if (places.size() == most) break;
        if (std::ranges::find(places, device->location) == places.end())
            places.push_back(device->location);
    }
    return places;
}

}  // namespace desktop
