// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which devices, parts and records of a stretch of the log can bear on each other: devices are tied
// by the parts with a serial that stand in them or come into them there. For
// earlier_knowledge.cpp only.
#pragma once

#include "rules/log.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace rules {

struct Stretch {
    std::size_t first = 0;
    std::size_t end = 0;  // not in it
};

// Devices by the log's numbers, parts by those of PartTies; no twins.
struct Tied {
    std::vector<std::uint32_t> devices;
    std::vector<std::uint32_t> parts;

    [[nodiscard]] bool empty() const { return devices.empty() && parts.empty(); }
};

class PartTies {
public:
    explicit PartTies(const Log& log);

    // All that is tied to `seeds` in the stretch; `before` is the state at its beginning.
    [[nodiscard]] Tied tiedTo(const Tied& seeds, const State& before, Stretch stretch) const;
    // Every device and part of the log.
    [[nodiscard]] Tied all() const;
    // What the record at `index` names: its device, and the parts with a serial.
    void addNamed(std::size_t index, Tied& seeds) const;

    // The records of the stretch on these devices, and the department-wide ones, in order.
    [[nodiscard]] std::vector<std::size_t> recordsOn(const std::vector<std::uint32_t>& devices,
                                                     Stretch stretch) const;

    [[nodiscard]] const std::string& serial(std::uint32_t device) const {
        return m_log.records()[m_records[device].front()].device;
    }
    [[nodiscard]] const PartKey& part(std::uint32_t number) const { return m_parts[number]; }

private:
    // A record that names a part with a serial.
    struct Naming {
        std::size_t record = 0;
        std::uint32_t device = 0;
        std::uint32_t part = 0;
    };
    struct Search;

    void note(std::size_t index, const PartKey& key);
    [[nodiscard]] std::span<const Naming> namings(Stretch stretch) const;

    const Log& m_log;
    std::optional<std::uint32_t> m_department;
    std::vector<std::vector<std::size_t>> m_records;  // by device, in order
    std::vector<Naming> m_namings;                    // in order
    std::vector<PartKey> m_parts;                     // by number
    std::map<PartKey, std::uint32_t> m_numbers;
};

}  // namespace rules
