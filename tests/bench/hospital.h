// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A hospital's records over months, made up: units are prepared, checked, used and cleaned, parts
// with serials go from one to the other, some entries come late, some are struck through. The same
// plan gives the same records on every computer. Knows no file.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace bench {

struct HospitalPlan {
    std::uint64_t seed = 20261128;
    std::int64_t records = 100'000;
    int units = 500;
    std::string rulebook;  // the text of an edition; three are adopted that differ in name alone
};

// A record as it is written down, in the order in which it is.
struct WrittenRecord {
    std::string station;
    std::int64_t seq = 0;
    std::int64_t atMs = 0;
    std::int64_t enteredMs = 0;
    std::string by;
    std::string device;
    std::string kind;
    std::string body;     // canonical JSON
    std::string content;  // the whole record, likewise
};

using RecordTaker = std::function<void(const WrittenRecord&)>;

// Calls `take` with each of the plan's records.
void runHospital(const HospitalPlan& plan, const RecordTaker& take);

// The instant after the last record at which the boards are asked for: 2026-04-12T08:00:00Z.
[[nodiscard]] std::string instantText(std::int64_t ms);

}  // namespace bench
