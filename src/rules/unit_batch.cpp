// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What may stand beside each other in a batch; see unit_batch.h.
#include "rules/unit_batch.h"

#include <functional>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Kind;
using logbook::Record;

// Said of the department, or of parts wherever they are.
bool concernsAll(const Record& record) {
    const auto* reprocess = std::get_if<body::Reprocess>(&record.body);
    if (reprocess && (record.device.empty() || !reprocess->parts.empty())) return true;
    const Kind kind = record.kind();
    return kind == Kind::Adopt || kind == Kind::Person || kind == Kind::Notice;
}

}  // namespace

std::size_t UnitBatch::unitOf(std::string_view serial) {
    const auto [place, isNew] = m_unitsBySerial.try_emplace(serial, m_units.size());
    if (isNew) m_units.emplace_back();
    return place->second;
}

// Two parts of one hash are taken for the same, which costs a little time and no more.
bool UnitBatch::isShared(IndexedState& indexed, const Record& record, std::size_t unit) {
    const auto* fit = std::get_if<body::Fit>(&record.body);
    if (!fit) return false;
    const auto serial = fit->part.attributes.find("serial");
    if (serial == fit->part.attributes.end() || serial->second.empty()) return false;
    const PartKeyView part{fit->position, serial->second};
    const auto* known = indexed.index.part(indexed.state, part);
    if (known && !(*known)->device.empty() && (*known)->device != record.device) return true;
    const auto fitted = m_unitsByPart.try_emplace(hashOf(part), unit).first;
    return fitted->second != unit;
}

bool UnitBatch::add(IndexedState& indexed, const Record& record) {
    if (concernsAll(record)) return false;
    const std::size_t number = unitOf(record.device);
    if (isShared(indexed, record, number)) return false;
    Unit& unit = m_units[number];
    const std::size_t place = m_records.size();
    m_records.push_back({&record});
    (unit.first == none ? unit.first : m_records[unit.last].next) = place;
    unit.last = place;
    return true;
}

void UnitBatch::clear() {
    m_units.clear();
    m_records.clear();
    m_unitsBySerial.clear();
    m_unitsByPart.clear();
}

}  // namespace rules
