// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The heads of a logbook: of each station the last record and its hash. Printed on paper and kept
// with backups they pin everything before them.
#pragma once

#include "logbook/instant.h"
#include "logbook/json.h"
#include "store/hash.h"

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>

namespace store {

struct Head {
    std::int64_t seq = 0;
    Hash hash{};
    bool operator==(const Head&) const = default;
};

// By station.
using Heads = std::map<std::string, Head, std::less<>>;

// {"icu-1":[412,"hex"],…}, as in a `sign` record.
[[nodiscard]] logbook::json::Value toJson(const Heads& heads);

// Nothing if the value has another shape.
[[nodiscard]] std::optional<Heads> headsFromJson(const logbook::json::Value& value);

// The number of a record; nothing if the value is no whole one from 1 to logbook::largestSeq.
[[nodiscard]] std::optional<std::int64_t> seqFromJson(const logbook::json::Value& value);

// A head, and until when the station was heard.
struct StationHead {
    Head head;
    logbook::Instant entered{};  // the latest `entered` of its records
    logbook::Instant arrived{};  // when the last of them to arrive came here
};

using StationHeads = std::map<std::string, StationHead, std::less<>>;

[[nodiscard]] Heads headsOf(const StationHeads& heads);

}  // namespace store
