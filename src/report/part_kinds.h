// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What all parts of one kind have in common, read from what was stated of single ones; and the
// parts that were taken out of a unit unused. Knows no words.
#pragma once

#include "rules/log.h"

#include <map>
#include <string>
#include <string_view>

namespace report {

// What is known of a kind of part, and from where.
struct PartKind {
    rules::PartAttributes attributes;  // without serial, lot, expires
    logbook::Instant fitted{};
    std::string device;  // in which it was fitted then
};

struct KnownBy {
    logbook::Instant at{};
    logbook::Instant knownAt{};
};

// Of the attributes of one part those that are surely not of this part alone: model, groups, reuse,
// and what the edition asks of the position.
[[nodiscard]] rules::PartAttributes kindOf(const rules::Rulebook& rulebook,
                                           const std::string& position,
                                           const rules::PartAttributes& part);

// By position: what the last fit of that model stated, on whichever unit, of that what kindOf()
// leaves, and besides what two parts of the model, of different lots, had alike. `state` is that of
// the log as known by then. Positions that its edition does not name are left out.
[[nodiscard]] std::map<std::string, PartKind> kindsOfModel(const rules::Log& log,
                                                           const rules::State& state,
                                                           const KnownBy& known,
                                                           std::string_view model);

// By position: what is known of a part of that lot that stands there in a unit, stood there last,
// or has a serial; besides the positions that a notice about the lot names, with nothing.
[[nodiscard]] std::map<std::string, rules::PartAttributes> partsOfLot(const rules::State& state,
                                                                      std::string_view lot);
// The same of all fits in the log, by the last of them.
[[nodiscard]] std::map<std::string, rules::PartAttributes> partsOfLot(const rules::Log& log,
                                                                      const rules::State& state,
                                                                      const KnownBy& known,
                                                                      std::string_view lot);

struct TakenOut {
    rules::PartAttributes attributes;
    logbook::Instant fitted{};
};

// By position that is empty now: the part that was taken out of it, if it has not been used or
// soiled since it was fitted.
[[nodiscard]] std::map<std::string, TakenOut> takenOutUnused(const rules::Log& log,
                                                             const rules::State& state,
                                                             const KnownBy& known,
                                                             const std::string& device);

}  // namespace report
