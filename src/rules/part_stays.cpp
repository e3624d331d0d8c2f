// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Stays of parts, followed record by record; see part_stays.h.
#include "rules/part_stays.h"

#include <algorithm>
#include <utility>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Kind;

// The part that a fit names by its serial.
std::optional<PartKey> partOf(const logbook::Record& record) {
    const auto* fit = std::get_if<body::Fit>(&record.body);
    if (!fit) return std::nullopt;
    const auto serial = fit->part.attributes.find("serial");
    if (serial == fit->part.attributes.end() || serial->second.empty()) return std::nullopt;
    return PartKey{fit->position, serial->second};
}

// A record that names the part itself, wherever that stands.
bool names(const logbook::Record& record, const PartKey& part) {
    if (partOf(record) == part) return true;
    const auto* reprocess = std::get_if<body::Reprocess>(&record.body);
    return reprocess &&
           std::any_of(reprocess->parts.begin(), reprocess->parts.end(), [&part](const auto& each) {
               return PartKey{each.position, each.serial} == part;
           });
}

// Whether what stands in that position of the record's unit is touched by it.
bool touches(const logbook::Record& record, const std::string& position) {
    if (const auto* fit = std::get_if<body::Fit>(&record.body)) return fit->position == position;
    if (const auto* out = std::get_if<body::Remove>(&record.body)) return out->position == position;
    if (const auto* reprocess = std::get_if<body::Reprocess>(&record.body)) {
        const auto& all = reprocess->positions;
        return std::find(all.begin(), all.end(), position) != all.end();
    }
    const Kind kind = record.kind();
    return kind == Kind::UseStart || kind == Kind::UsePause || kind == Kind::UseResume ||
           kind == Kind::UseEnd || kind == Kind::Soil;
}

bool decidesEnrolment(const logbook::Record& record) {
    return record.kind() == Kind::Enrol || record.kind() == Kind::Retire;
}

bool movesParts(const logbook::Record& record) {
    const Kind kind = record.kind();
    return kind == Kind::Fit || kind == Kind::Remove || kind == Kind::Retire;
}

}  // namespace

PartStays::PartStays(const Log& log, std::string device, Instant at)
    : m_log(log), m_device(std::move(device)), m_at(at) {
    for (const auto& record : log.records()) {
        if (record.at > at) break;
        if (record.device != m_device) continue;
        if (const auto part = partOf(record)) m_parts.try_emplace(*part);
    }
}

State PartStays::follow(Instant knownAt) {
    State state;
    state.rulebook = m_log.firstEdition();
    for (std::size_t index = 0; index < m_log.records().size(); ++index) {
        const auto& record = m_log.records()[index];
        if (record.at > m_at) break;
        if (!m_log.takesPart(index, knownAt)) continue;
        fold(state, record, m_log.editions());
        if (!m_parts.empty() && movesParts(record)) look(state, record);
    }
    for (auto& [key, past] : m_parts) leave(past, m_at);
    return state;
}

// Where the parts stand after the record.
void PartStays::look(const State& state, const logbook::Record& record) {
    for (auto& [key, past] : m_parts) {
        const auto known = state.parts.find(key);
        const std::string now = known == state.parts.end() ? "" : known->second->device;
        if (now == past.standsIn) continue;
        leave(past, record.at);
        const Device* device = state.device(now);
        past.standsIn = now;
        past.since = device && device->use ? device->use->start.at : record.at;
    }
}

void PartStays::leave(Past& past, Instant at) const {
    if (past.standsIn == m_device) {
        past.lastHere = past.lastHere ? std::max(*past.lastHere, at) : at;
    } else if (!past.standsIn.empty()) {
        past.elsewhere.push_back({past.standsIn, past.since, at});
    }
    past.standsIn.clear();
}

bool PartStays::bears(const logbook::Record& record) const {
    return std::any_of(m_parts.begin(), m_parts.end(), [&record](const auto& part) {
        return bearsOn(part.first, part.second, record);
    });
}

bool PartStays::bearsOn(const PartKey& part, const Past& past, const logbook::Record& record) {
    if (!past.lastHere || record.at > *past.lastHere) return false;
    if (names(record, part)) return true;
    const bool enrols = decidesEnrolment(record);
    if (!enrols && !touches(record, part.first)) return false;
    return std::any_of(past.elsewhere.begin(), past.elsewhere.end(), [&](const Stay& stay) {
        return stay.device == record.device && record.at <= stay.to &&
               (enrols || record.at >= stay.from);
    });
}

}  // namespace rules
