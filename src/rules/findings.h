// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The findings on one device, by what they are about. For assess.cpp and its neighbours only.
#pragma once

#include "rules/assess.h"

#include <optional>
#include <set>
#include <vector>

namespace rules {

struct FindingContext {
    const State& state;
    const Rulebook& rulebook;
    const Device& device;
    Instant at{};
    std::optional<std::string> group;     // asked for
    std::optional<std::string> selected;  // on the device
};

// Each adds what holds at `context.at`, in no particular order. The device is not retired.
void addDeviceFindings(const FindingContext& context, std::vector<Finding>& findings);
void addServiceFindings(const FindingContext& context, std::vector<Finding>& findings);
void addPartFindings(const FindingContext& context, std::vector<Finding>& findings);
void addCheckFindings(const FindingContext& context, std::vector<Finding>& findings);

// The instants, past or future, at which time alone may bring or end one of them.
void addServiceTurningPoints(const FindingContext& context, std::set<Instant>& points);
void addPartTurningPoints(const FindingContext& context, std::set<Instant>& points);
void addCheckTurningPoints(const FindingContext& context, std::set<Instant>& points);

// Whether a notice is about parts, not about devices alone; whether it is about this part; whether
// it is not cancelled and what it says of devices holds for this one.
[[nodiscard]] bool namesPart(const logbook::body::Match& match);
[[nodiscard]] bool noticeMatchesPart(const logbook::body::Match& match, const std::string& position,
                                     const PartAttributes& part);
[[nodiscard]] bool noticeConcerns(const Device& device, const logbook::body::Notice& notice);

// Whether the notice stands on the device, if it names no part.
[[nodiscard]] bool standsOnDevice(const FindingContext& context, const KnownNotice& known);
// The positions whose part the standing notice is about; empty if it names no part.
[[nodiscard]] std::vector<std::string> positionsUnder(const FindingContext& context,
                                                      const KnownNotice& known);

// A finding that rests on `record` and stands since then, or since `brought` if that is later.
[[nodiscard]] Finding resting(FindingCode code, std::string subject,
                              const std::optional<RecordRef>& record,
                              std::optional<Instant> brought = std::nullopt);

}  // namespace rules
