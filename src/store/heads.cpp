// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Heads to and from JSON.
#include "store/heads.h"

#include <cmath>
#include <utility>

namespace store {

namespace {

std::optional<Head> headFromJson(const logbook::json::Value& value) {
    const logbook::json::Array* pair = value.array();
    if (pair == nullptr || pair->size() != 2) {
        return std::nullopt;
    }
    const double* seq = (*pair)[0].number();
    const std::string* hex = (*pair)[1].string();
    constexpr double largest = 9007199254740991.0;
    if (seq == nullptr || hex == nullptr || !(*seq >= 1 && *seq <= largest) ||
        std::floor(*seq) != *seq) {
        return std::nullopt;
    }
    const auto hash = hashFromHex(*hex);
    if (!hash) {
        return std::nullopt;
    }
    return Head{static_cast<std::int64_t>(*seq), *hash};
}

}  // namespace

logbook::json::Value toJson(const Heads& heads) {
    logbook::json::Object object;
    for (const auto& [station, head] : heads) {
        object.emplace_back(station, logbook::json::Array{static_cast<double>(head.seq),
                                                          toHex(head.hash)});
    }
    return object;
}

std::optional<Heads> headsFromJson(const logbook::json::Value& value) {
    const logbook::json::Object* object = value.object();
    if (object == nullptr) {
        return std::nullopt;
    }
    Heads heads;
    for (const auto& [station, pair] : *object) {
        const auto head = headFromJson(pair);
        if (!head) {
            return std::nullopt;
        }
        heads[station] = *head;
    }
    return heads;
}

Heads headsOf(const StationHeads& heads) {
    Heads plain;
    for (const auto& [station, stationHead] : heads) {
        plain[station] = stationHead.head;
    }
    return plain;
}

}  // namespace store
