// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Takes parts from the shelf and puts them back by way of the washer.
#include "station/demo_shelf.h"

#include <algorithm>

namespace station::demo {

Shelf::Shelf(const Scenario& scenario) : m_scenario(scenario) {
    for (const auto& [key, part] : scenario.parts) {
        for (int count = 0; count < part.pool; ++count) {
            m_clean[key].push_back({buy(key), Instant{}});
        }
    }
}

std::string Shelf::buy(std::string_view part) {
    int& count = m_bought.try_emplace(std::string(part), 0).first->second;
    const std::string number = std::to_string(1000 + ++count * 7);
    return m_scenario.parts.find(part)->second.prefix + number;
}

std::string Shelf::takeClean(std::string_view part, Instant now) {
    auto& clean = m_clean.try_emplace(std::string(part)).first->second;
    const auto longest = std::ranges::min_element(clean, {}, &CleanPart::from);
    if (longest == clean.end() || longest->from > now) {
        return buy(part);
    }
    std::string serial = longest->serial;
    clean.erase(longest);
    return serial;
}

std::string Shelf::takeSoiled(std::string_view part) {
    const auto found = std::ranges::find(m_soiled, part, &SoiledPart::part);
    if (found == m_soiled.end()) {
        return {};
    }
    std::string serial = found->serial;
    m_soiled.erase(found);
    return serial;
}

std::vector<SoiledPart> Shelf::wash(Instant start, Instant finish) {
    const auto later = std::ranges::stable_partition(
        m_soiled, [&](const SoiledPart& part) { return part.since < start; });
    std::vector<SoiledPart> load(m_soiled.begin(), later.begin());
    m_soiled.erase(m_soiled.begin(), later.begin());
    for (const SoiledPart& part : load) {
        m_clean[part.part].push_back({part.serial, finish});
    }
    return load;
}

std::vector<Lot> lotsOn(const Part& part, int day) {
    std::vector<Lot> lots;
    for (const Lot& lot : part.lots) {
        if (lot.from >= day && day >= lot.to) {
            lots.push_back(lot);
        }
    }
    return lots.empty() ? std::vector<Lot>{part.lots.back()} : lots;
}

}  // namespace station::demo
