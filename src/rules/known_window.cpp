// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Devices tied by parts that moved between them; see known_window.h.
#include "rules/known_window.h"

#include <algorithm>
#include <span>

namespace rules {
namespace {

void addStanding(Ties& ties, const std::string& device, const State& before) {
    const Device* known = before.device(device);
    if (!known) return;
    for (const auto& [position, part] : known->fitted) {
        const std::string serial(part.attributes.serial());
        if (!serial.empty()) ties.parts.insert({position, serial});
    }
}

void addDevice(Ties& ties, const std::string& device, const State& before) {
    if (ties.devices.insert(device).second) addStanding(ties, device, before);
}

void addHolder(Ties& ties, const PartKey& part, const State& before) {
    const auto known = before.parts.find(part);
    const bool stands = known != before.parts.end() && !known->second->device.empty();
    if (stands) addDevice(ties, known->second->device, before);
}

}  // namespace

std::vector<SerialFit> serialFits(const Log& log) {
    std::vector<SerialFit> fits;
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto* fit = std::get_if<logbook::body::Fit>(&log.records()[index].body);
        if (!fit) continue;
        const auto serial = fit->part.attributes.find("serial");
        if (serial == fit->part.attributes.end() || serial->second.empty()) continue;
        fits.push_back({index, {fit->position, serial->second}});
    }
    return fits;
}

Ties tiedTo(const std::string& device, const State& before, Stretch stretch, const Log& log,
            const std::vector<SerialFit>& fits) {
    const auto byRecord = [](const SerialFit& fit, std::size_t index) { return fit.record < index; };
    const std::span<const SerialFit> inside(
        std::lower_bound(fits.begin(), fits.end(), stretch.first, byRecord),
        std::lower_bound(fits.begin(), fits.end(), stretch.end, byRecord));
    Ties ties;
    addDevice(ties, device, before);
    std::size_t size = 0;
    while (size != ties.devices.size() + ties.parts.size()) {
        size = ties.devices.size() + ties.parts.size();
        for (const SerialFit& fit : inside) {
            const std::string& fitted = log.records()[fit.record].device;
            const bool knownDevice = ties.devices.contains(fitted);
            if (!knownDevice && !ties.parts.contains(fit.part)) continue;
            addDevice(ties, fitted, before);
            ties.parts.insert(fit.part);
        }
        for (const PartKey& part : std::set<PartKey>(ties.parts)) addHolder(ties, part, before);
    }
    return ties;
}

}  // namespace rules
