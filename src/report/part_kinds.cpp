// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Kinds of parts from single ones; see part_kinds.h.
#include "report/part_kinds.h"

#include "report/walk_back.h"
#include "rules/features.h"

#include <algorithm>
#include <set>
#include <utility>

namespace report {

namespace {

using rules::PartAttributes;

// The attributes of the part in a position that the edition looks at, or compares.
std::set<std::string> namedAttributes(const rules::Rulebook& rulebook,
                                      const std::string& position) {
    std::set<std::string> names;
    for (const auto& [attribute, values] : rules::attributesOf(rulebook, position))
        names.insert(attribute);
    for (const auto& check : rulebook.checks)
        for (const auto& rule : check.voidedBy) {
            const bool here = rule.event.subject == position || rule.event.subject == "*";
            if (here && rule.only == rules::Only::DifferentAttribute)
                names.insert(rule.attribute);
        }
    return names;
}

bool ofThisPart(const std::string& attribute) {
    return attribute == "serial" || attribute == "lot" || attribute == "udi";
}

// The attributes as the fit left them: of a known serial also those stated before.
PartAttributes attributesOf(const rules::State& state, const logbook::body::Fit& fit) {
    PartAttributes part;
    for (const auto& [key, value] : fit.part.attributes) {
        if (key == "reuse") {
            part.reuse = logbook::reuseOf(value);
        } else if (key != "expires" && !value.empty()) {
            part.texts.try_emplace(key, value);
        }
    }
    if (fit.part.groups && !fit.part.groups->empty()) part.groups = fit.part.groups;
    const std::string serial(part.serial());
    const auto known = state.parts.find({fit.position, serial});
    return serial.empty() || known == state.parts.end() ? part : known->second->attributes;
}

// Both stated, and not the same: two parts that did not come in one package.
bool differ(const PartAttributes& a, const PartAttributes& b) {
    const auto apart = [&](std::string_view key) {
        return !a.text(key).empty() && !b.text(key).empty() && a.text(key) != b.text(key);
    };
    const bool lotsStated = !a.text("lot").empty() && !b.text("lot").empty();
    return lotsStated ? apart("lot") : apart("serial");
}

// The fits of one model into one position, latest first.
struct Fits {
    PartAttributes last;
    logbook::Instant at{};
    std::string device;
    std::optional<PartAttributes> other;  // of another part
};

PartKind kindFrom(const rules::Rulebook& rulebook, const std::string& position,
                  const Fits& fits) {
    PartKind kind{kindOf(rulebook, position, fits.last), fits.at, fits.device};
    if (!fits.other) return kind;
    for (const auto& [key, value] : fits.last.texts)
        if (!ofThisPart(key) && fits.other->text(key) == value) kind.attributes.texts[key] = value;
    return kind;
}

// Walks back over the records of a unit.
class WayBack {
public:
    WayBack(const rules::State& state, const rules::Device& device)
        : m_state(state), m_device(device) {}

    // False where nothing before matters.
    bool take(const logbook::Record& record) {
        using logbook::Kind;
        const auto kind = record.kind();
        if (kind == Kind::UseStart || kind == Kind::UseResume || kind == Kind::Soil) return false;
        if (const auto* remove = std::get_if<logbook::body::Remove>(&record.body)) {
            if (!m_device.fitted.contains(remove->position)) m_waiting.insert(remove->position);
        } else if (const auto* fit = std::get_if<logbook::body::Fit>(&record.body)) {
            if (m_waiting.erase(fit->position) > 0) add(*fit, record.at);
        }
        return true;
    }

    std::map<std::string, TakenOut> taken() && { return std::move(m_taken); }

private:
    void add(const logbook::body::Fit& fit, logbook::Instant at) {
        const auto held = m_device.lastHeld.find(fit.position);
        if (held == m_device.lastHeld.end()) return;
        const auto& part = held->second;
        const auto known = m_state.parts.find({fit.position, std::string(part.serial())});
        const bool soiled = known != m_state.parts.end() &&
                            (known->second->life.used || !known->second->device.empty());
        if (!soiled) m_taken.try_emplace(fit.position, TakenOut{part, at});
    }

    const rules::State& m_state;
    const rules::Device& m_device;
    std::set<std::string> m_waiting;
    std::map<std::string, TakenOut> m_taken;
};

}  // namespace

PartAttributes kindOf(const rules::Rulebook& rulebook, const std::string& position,
                      const PartAttributes& part) {
    const auto named = namedAttributes(rulebook, position);
    PartAttributes kind;
    kind.groups = part.groups;
    kind.reuse = part.reuse;
    for (const auto& [key, value] : part.texts) {
        const bool kept = key == "model" || named.contains(key);
        if (kept && !ofThisPart(key)) kind.texts.try_emplace(key, value);
    }
    return kind;
}

std::map<std::string, PartKind> kindsOfModel(const rules::Log& log, const rules::State& state,
                                             const KnownBy& known, std::string_view model) {
    std::map<std::string, Fits> fits;
    for (std::size_t index = log.records().size(); index-- > 0;) {
        const auto& record = log.records()[index];
        const auto* fit = std::get_if<logbook::body::Fit>(&record.body);
        if (!fit || record.at > known.at || !log.takesPart(index, known.knownAt)) continue;
        auto part = attributesOf(state, *fit);
        if (part.text("model") != model || !state.rulebook->position(fit->position)) continue;
        const auto [found, isFirst] = fits.try_emplace(fit->position);
        if (isFirst) {
            found->second = {std::move(part), record.at, record.device, std::nullopt};
        } else if (!found->second.other && differ(found->second.last, part)) {
            found->second.other = std::move(part);
        }
    }
    std::map<std::string, PartKind> kinds;
    for (const auto& [position, each] : fits)
        kinds.emplace(position, kindFrom(*state.rulebook, position, each));
    return kinds;
}

std::map<std::string, PartAttributes> partsOfLot(const rules::State& state, std::string_view lot) {
    std::map<std::string, PartAttributes> parts;
    const auto add = [&](const std::string& position, const PartAttributes& part) {
        if (part.text("lot") == lot && state.rulebook->position(position))
            parts.try_emplace(position, part);
    };
    for (const auto& [serial, device] : state.devices)
        for (const auto& [position, part] : device->fitted) add(position, part.attributes);
    for (const auto& [serial, device] : state.devices)
        for (const auto& [position, part] : device->lastHeld) add(position, part);
    for (const auto& [key, known] : state.parts) add(key.first, known->attributes);
    for (const auto& [key, known] : state.notices) {
        const auto& match = known.notice.match;
        if (known.notice.cancelled || !match.lots || !match.position) continue;
        const bool isNamed = std::ranges::find(*match.lots, lot) != match.lots->end();
        if (isNamed && state.rulebook->position(*match.position))
            parts.try_emplace(*match.position);
    }
    return parts;
}

std::map<std::string, PartAttributes> partsOfLot(const rules::Log& log, const rules::State& state,
                                                 const KnownBy& known, std::string_view lot) {
    std::map<std::string, PartAttributes> parts;
    for (std::size_t index = log.records().size(); index-- > 0;) {
        const auto& record = log.records()[index];
        const auto* fit = std::get_if<logbook::body::Fit>(&record.body);
        if (!fit || record.at > known.at || !log.takesPart(index, known.knownAt)) continue;
        const auto stated = fit->part.attributes.find("lot");
        if (stated == fit->part.attributes.end() || stated->second != lot) continue;
        if (state.rulebook->position(fit->position))
            parts.try_emplace(fit->position, attributesOf(state, *fit));
    }
    return parts;
}

std::map<std::string, TakenOut> takenOutUnused(const rules::Log& log, const rules::State& state,
                                               const KnownBy& known, const std::string& device) {
    const auto* unit = state.device(device);
    const auto number = log.deviceNumber(device);
    if (!unit || !number || unit->use || unit->retired) return {};
    WayBack back(state, *unit);
    walkBack(log, *number, known,
             [&](const logbook::Record& record) { return back.take(record); });
    return std::move(back).taken();
}

}  // namespace report
