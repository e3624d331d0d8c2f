// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Questions to the log: the board, one unit, the month. Nothing here writes.
#pragma once

#include "report/board.h"
#include "report/draft.h"
#include "report/explain.h"
#include "report/history.h"
#include "report/horizon.h"
#include "report/look_back.h"
#include "report/month.h"
#include "report/muster.h"
#include "report/plan.h"
#include "report/trace.h"
#include "station/standing.h"

#include <chrono>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace station {

// Every unit enrolled by then.
[[nodiscard]] report::Board board(const Surroundings& surroundings, Standing standing);

// One unit; a problem if it was never enrolled by then. The standing must outlive it.
[[nodiscard]] Result<report::Explain> explain(const Surroundings& surroundings,
                                              const WholeStanding& standing,
                                              const std::string& device);

// Whether the time asked for, or what was known then, lies before now.
[[nodiscard]] bool asksThePast(const Surroundings& surroundings, const Asked& asked);

// One unit as it could be known, beside what is known now. Without knowledge asked for: what could
// be known at the time asked. A problem if it was not enrolled then by either.
[[nodiscard]] Result<report::LookingBack> lookBack(const Surroundings& surroundings,
                                                   const WholeStanding& standing,
                                                   const std::string& device);

// The entries on it up to the time asked; none where there are none. Nothing but its own entries is
// looked at.
[[nodiscard]] report::History history(const Surroundings& surroundings,
                                      const WholeStanding& standing,
                                      const std::string& device);

// Its way to ready, likewise.
[[nodiscard]] Result<report::WayToReady> wayToReady(const Surroundings& surroundings,
                                                    const Standing& standing,
                                                    const std::string& device);

// What comes in the time ahead, with nothing further recorded. The standing must outlive it.
[[nodiscard]] report::Horizon horizon(const Surroundings& surroundings, const Standing& standing,
                                      logbook::Duration ahead);

// How many of the units for the group that was asked for, by how many people; both at least 1.
struct MusterAsked {
    std::size_t units = 1;
    std::size_t people = 1;
};

// The most that can be asked for, of units and of people.
inline constexpr std::size_t mostMustered = 999;

// So many units ready as soon as possible. `standing` was asked for with a group, and must outlive
// it.
[[nodiscard]] report::Muster muster(const Surroundings& surroundings, const Standing& standing,
                                    const MusterAsked& asked);

struct TraceAsked {
    rules::TraceBy by{};
    std::string key;
};

// Where parts were and are. A problem if a notice is asked for that is not known by then. The
// standing must outlive it.
[[nodiscard]] Result<report::Trace> trace(const Surroundings& surroundings,
                                          const WholeStanding& standing, const TraceAsked& asked);

struct DraftAsked {
    std::filesystem::path rulebook;
    int months = 12;  // at least 1
};

// What the draft in that file would change. A problem if it has faults, all of which are listed.
// The standing must outlive it. Writes nothing.
[[nodiscard]] Result<report::Draft> tryDraft(const Surroundings& surroundings,
                                             const WholeStanding& standing,
                                             const DraftAsked& asked);

// "2026-03".
[[nodiscard]] std::optional<std::chrono::year_month> parseMonth(std::string_view text);

// The month, by the log read from that file, which must outlive it; its heads are those known then.
// A problem if no edition is known.
[[nodiscard]] Result<report::Month> month(const Surroundings& surroundings, const WholeLog& log,
                                          const LogbookFile& file,
                                          const rules::MonthQuestion& question);

}  // namespace station
