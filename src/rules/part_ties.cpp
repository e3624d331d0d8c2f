// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Devices tied by parts that moved between them; see part_ties.h.
#include "rules/part_ties.h"

#include <algorithm>
#include <numeric>

namespace rules {

namespace body = logbook::body;

// One search for ties: devices and parts by number, each found once.
struct PartTies::Search {
    const PartTies& ties;
    const State& before;
    Tied found;
    std::vector<bool> devices;
    std::vector<bool> parts;

    void addDevice(std::uint32_t number) {
        if (devices[number]) return;
        devices[number] = true;
        found.devices.push_back(number);
        const Device* device = before.device(ties.serial(number));
        if (!device) return;
        for (const auto& [position, part] : device->fitted) {
            const auto serial = part.attributes.serial();
            if (serial.empty()) continue;
            addPart(ties.m_numbers.find({position, std::string(serial)})->second);
        }
    }

    // The device in which the part stands at the beginning is tied too.
    void addPart(std::uint32_t number) {
        if (parts[number]) return;
        parts[number] = true;
        found.parts.push_back(number);
        const auto known = before.parts.find(ties.part(number));
        if (known == before.parts.end() || known->second->device.empty()) return;
        addDevice(*ties.m_log.deviceNumber(known->second->device));
    }
};

PartTies::PartTies(const Log& log)
    : m_log(log), m_department(log.deviceNumber("")), m_records(log.deviceCount()) {
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        m_records[log.deviceNumber(index)].push_back(index);
        const auto& content = log.records()[index].body;
        if (const auto* fit = std::get_if<body::Fit>(&content)) {
            const auto serial = fit->part.attributes.find("serial");
            if (serial == fit->part.attributes.end() || serial->second.empty()) continue;
            note(index, {fit->position, serial->second});
        } else if (const auto* reprocess = std::get_if<body::Reprocess>(&content)) {
            for (const auto& part : reprocess->parts) note(index, {part.position, part.serial});
        }
    }
}

void PartTies::note(std::size_t index, const PartKey& key) {
    const auto next = static_cast<std::uint32_t>(m_parts.size());
    const auto [known, isNew] = m_numbers.try_emplace(key, next);
    if (isNew) m_parts.push_back(key);
    m_namings.push_back({index, m_log.deviceNumber(index), known->second});
}

std::span<const PartTies::Naming> PartTies::namings(Stretch stretch) const {
    const auto byRecord = [](const Naming& naming, std::size_t index) {
        return naming.record < index;
    };
    return {std::lower_bound(m_namings.begin(), m_namings.end(), stretch.first, byRecord),
            std::lower_bound(m_namings.begin(), m_namings.end(), stretch.end, byRecord)};
}

// The department ties nothing: what it names there does not depend on each other.
Tied PartTies::tiedTo(const Tied& seeds, const State& before, Stretch stretch) const {
    Search search{
        *this, before, {}, std::vector<bool>(m_records.size()), std::vector<bool>(m_parts.size())};
    for (const std::uint32_t device : seeds.devices) search.addDevice(device);
    for (const std::uint32_t part : seeds.parts) search.addPart(part);
    const auto inside = namings(stretch);
    std::size_t size = 0;
    while (size < search.found.devices.size() + search.found.parts.size()) {
        size = search.found.devices.size() + search.found.parts.size();
        for (const Naming& naming : inside) {
            if (naming.device == m_department) continue;
            if (search.devices[naming.device]) search.addPart(naming.part);
            if (search.parts[naming.part]) search.addDevice(naming.device);
        }
    }
    return std::move(search.found);
}

Tied PartTies::all() const {
    Tied everything{std::vector<std::uint32_t>(m_records.size()),
                    std::vector<std::uint32_t>(m_parts.size())};
    std::iota(everything.devices.begin(), everything.devices.end(), 0U);
    std::iota(everything.parts.begin(), everything.parts.end(), 0U);
    return everything;
}

void PartTies::addNamed(std::size_t index, Tied& seeds) const {
    seeds.devices.push_back(m_log.deviceNumber(index));
    for (const Naming& naming : namings({index, index + 1})) seeds.parts.push_back(naming.part);
}

std::vector<std::size_t> PartTies::recordsOn(const std::vector<std::uint32_t>& devices,
                                             Stretch stretch) const {
    std::vector<std::size_t> indices;
    const auto add = [&](std::uint32_t device) {
        const auto& on = m_records[device];
        const auto first = std::lower_bound(on.begin(), on.end(), stretch.first);
        indices.insert(indices.end(), first, std::lower_bound(first, on.end(), stretch.end));
    };
    for (const std::uint32_t device : devices) {
        if (device != m_department) add(device);
    }
    if (m_department) add(*m_department);
    std::sort(indices.begin(), indices.end());
    return indices;
}

}  // namespace rules
