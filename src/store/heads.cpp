// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Heads to and from JSON.
#include "store/heads.h"

#include "logbook/record.h"

#include <cmath>
#include <utility>

namespace store {

namespace {

std::optional<Head> headFromJson(const logbook::json::Value& value) {
    const logbook::json::Array* pair = value.array();
    if (pair == nullptr || pair->size() != 2) {
        return std::nullopt;
    }
    const auto seq = seqFromJson((*pair)[0]);
    const std::string* hex = (*pair)[1].string();
    const auto hash = hex != nullptr ? hashFromHex(*hex) : std::nullopt;
    if (!seq || !hash) {
        return std::nullopt;
    }
    return Head{*seq, *hash};
}

}  // namespace

std::optional<std::int64_t> seqFromJson(const logbook::json::Value& value) {
    const double* number = value.number();
    constexpr auto largest = static_cast<double>(logbook::largestSeq);
    if (number == nullptr || !(*number >= 1 && *number <= largest) ||
        std::floor(*number) != *number) {
        return std::nullopt;
    }
    return static_cast<std::int64_t>(*number);
}

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
