// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Devices tied by parts that moved between them; see known_window.h.
#include "rules/known_window.h"

#include <algorithm>
#include <span>

namespace rules {

// One search for ties: devices and parts by number, each found once.
struct SerialFits::Search {
    const SerialFits& fits;
    const State& before;
    Ties ties;
    std::vector<bool> parts;
    bool grew = false;

    void addDevice(const std::string& serial) {
        const auto number = fits.m_log.deviceNumber(serial);
        if (!number || ties.devices[*number]) return;
        ties.devices[*number] = true;
        ties.serials.insert(serial);
        grew = true;
        const Device* device = before.device(serial);
        if (!device) return;
        for (const auto& [position, part] : device->fitted) {
            const auto known =
                fits.m_numbers.find({position, std::string(part.attributes.serial())});
            if (known != fits.m_numbers.end()) addPart(known->second);
        }
    }

    // The device in which the part stands at the beginning is tied too.
    void addPart(std::uint32_t number) {
        if (parts[number]) return;
        parts[number] = true;
        grew = true;
        const PartKey& key = fits.m_parts[number];
        ties.parts.insert(key);
        const auto known = before.parts.find(key);
        if (known != before.parts.end()) addDevice(known->second->device);
    }
};

SerialFits::SerialFits(const Log& log) : m_log(log) {
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto* fit = std::get_if<logbook::body::Fit>(&log.records()[index].body);
        if (!fit) continue;
        const auto serial = fit->part.attributes.find("serial");
        if (serial == fit->part.attributes.end() || serial->second.empty()) continue;
        const PartKey key{fit->position, serial->second};
        const auto next = static_cast<std::uint32_t>(m_parts.size());
        const auto [known, isNew] = m_numbers.try_emplace(key, next);
        if (isNew) m_parts.push_back(key);
        m_fits.push_back({index, log.deviceNumber(index), known->second});
    }
}

Ties SerialFits::tiedTo(const std::string& device, const State& before, Stretch stretch) const {
    const auto byRecord = [](const Fit& fit, std::size_t index) { return fit.record < index; };
    const std::span<const Fit> inside(
        std::lower_bound(m_fits.begin(), m_fits.end(), stretch.first, byRecord),
        std::lower_bound(m_fits.begin(), m_fits.end(), stretch.end, byRecord));
    Search search{*this, before, {}, {}, false};
    search.ties.devices.resize(m_log.deviceCount());
    search.parts.resize(m_parts.size());
    search.addDevice(device);
    while (search.grew) {
        search.grew = false;
        for (const Fit& fit : inside) {
            if (search.ties.devices[fit.device]) search.addPart(fit.part);
            if (search.parts[fit.part]) search.addDevice(m_log.records()[fit.record].device);
        }
    }
    const auto department = m_log.deviceNumber("");
    if (department) search.ties.devices[*department] = true;
    return std::move(search.ties);
}

}  // namespace rules
