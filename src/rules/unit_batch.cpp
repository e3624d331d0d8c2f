// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What may stand beside each other in a batch; see unit_batch.h.
#include "rules/unit_batch.h"

#include <utility>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Kind;
using logbook::Record;

// Whether the record is said of the department, or of parts wherever they are. A kind that is new,
// or whose effect grows, is asked about here: what is not true of it now makes answers wrong.
bool concernsAll(const Record& record) {
    switch (record.kind()) {
        case Kind::Adopt:
        case Kind::Person:
        case Kind::Notice: return true;
        case Kind::Reprocess:
            return record.device.empty() || !std::get<body::Reprocess>(record.body).parts.empty();
        // Of the unit; a part that is put in may be another's, which is looked for (below).
        case Kind::Fit:
        case Kind::Remove:
        case Kind::Retire:
        case Kind::UseStart:
        case Kind::UsePause:
        case Kind::UseResume:
        case Kind::UseEnd:
        case Kind::Soil:
        // Of the unit, and of no part.
        case Kind::Enrol:
        case Kind::Group:
        case Kind::Power:
        case Kind::Move:
        case Kind::Sighted:
        case Kind::Software:
        case Kind::Check:
        case Kind::Alarm:
        case Kind::Fault:
        case Kind::Clear:
        case Kind::Withdraw:
        case Kind::Release:
        case Kind::Waive:
        case Kind::NoticeDone:
        case Kind::Service:
        // Of nothing that is folded, but that a unit has it as its last.
        case Kind::Note:
        case Kind::Review:
        case Kind::Sign:
        case Kind::Strike: return false;
    }
    return true;
}

}  // namespace

const std::size_t* UnitBatch::find(std::string_view serial) {
    return m_unitsBySerial.find(
        hashOf(serial), [&](std::size_t unit) { return m_units[unit].serial == serial; });
}

std::size_t UnitBatch::unitOf(std::string_view serial) {
    if (const auto* known = find(serial)) return *known;
    m_unitsBySerial.add(hashOf(serial), m_units.size());
    m_units.push_back({serial});
    return m_units.size() - 1;
}

// Whether the part that is put in is another unit's, or was put into another one here; then the
// units in the way are known.
bool UnitBatch::takesPartOfOther(IndexedState& indexed, const Record& record, std::size_t unit) {
    const auto* fit = std::get_if<body::Fit>(&record.body);
    if (!fit) return false;
    const auto serial = fit->part.attributes.find("serial");
    if (serial == fit->part.attributes.end() || serial->second.empty()) return false;
    m_inTheWay.assign(1, unit);
    bool isOfOther = false;
    const PartKeyView part{fit->position, serial->second};
    const auto* known = indexed.part(part);
    if (known && !(*known)->device.empty() && (*known)->device != record.device) {
        isOfOther = true;
        if (const auto* other = find((*known)->device)) m_inTheWay.push_back(*other);
    }
    const std::size_t hash = hashOf(part);
    if (auto* last = m_unitsByPart.find(hash, [](std::size_t) { return true; })) {
        isOfOther |= *last != unit;
        m_inTheWay.push_back(std::exchange(*last, unit));
    } else {
        m_unitsByPart.add(hash, unit);
    }
    return isOfOther;
}

UnitBatch::Added UnitBatch::add(IndexedState& indexed, const Record& record) {
    if (concernsAll(record)) return Added::NotBeforeAll;
    const std::size_t number = unitOf(record.device);
    if (takesPartOfOther(indexed, record, number)) return Added::NotBeforeUnits;
    Unit& unit = m_units[number];
    const std::size_t place = m_records.size();
    m_records.push_back({&record});
    (unit.first == none ? unit.first : m_records[unit.last].next) = place;
    unit.last = place;
    return Added::Yes;
}

void UnitBatch::clear() {
    m_units.clear();
    m_records.clear();
    m_unitsBySerial.clear();
    m_unitsByPart.clear();
}

}  // namespace rules
