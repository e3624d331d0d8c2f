// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every unit at one instant as the screens show it: made beside the thread that paints, and never
// changed after that.
#pragma once

#include "report/board.h"
#include "station/answers.h"
#include "station/bedside.h"
#include "station/model_log.h"
#include "station/standing_source.h"
#include "station/system.h"
#include "station/unsaid_places.h"

#include <QString>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace desktop {

struct FleetView {
    // What it was made from; everything else refers to it.
    std::shared_ptr<const station::Standing> standing;
    std::shared_ptr<station::ModelLog> models;  // only the thread that reads looks into it
    report::Board board;
    std::vector<report::BoardLine> lines;  // of the board's rows, in their order
    logbook::Instant readAt{};             // by the clock
    // Units with an emergency start that is not in the log, and its time; see unrecorded.h.
    std::map<std::string, logbook::Instant> unrecorded{};

    // Whether it was read once that entry had been kept.
    [[nodiscard]] bool holds(const logbook::RecordName& entry) const;
    // Whether it is from before that entry, which was kept from here: what it shows is old then.
    // Of another logbook than that of the entry it never is.
    [[nodiscard]] bool isBefore(const logbook::RecordName& entry) const;
};

// The log is read again every quarter of a minute: an older view is one that cannot be.
inline constexpr logbook::Duration agesAfter{60'000};

// That it could not be read again for so long; "" while it is not old.
[[nodiscard]] QString ageSentence(const FleetView& fleet, const words::Words& words,
                                  logbook::Instant now);

using SharedFleetView = std::shared_ptr<const FleetView>;

// Beside the thread that paints: what a text names that was scanned or typed; `open` is the unit
// that is open, "" if none.
[[nodiscard]] station::Found findNamed(const FleetView& fleet,
                                       const station::Surroundings& surroundings,
                                       const station::LogbookFile& file, const std::string& text,
                                       const std::string& open = {});

// Reads the fleet of a logbook again and again: the log is not read from its beginning where a
// state is kept, what has not changed since is not read at all, and where nothing has come in and
// it is still the same second, it is the same view. By one thread at a time; the surroundings are
// the same each time, and outlive it.
class FleetSource {
public:
    [[nodiscard]] station::Result<SharedFleetView> read(const station::Surroundings& surroundings,
                                                        const station::LogbookFile& file);

private:
    [[nodiscard]] station::Result<void> open(const station::Surroundings& surroundings,
                                             const station::LogbookFile& file);

    std::filesystem::path m_path;
    std::optional<station::system::FileIdentity> m_identity;  // of the file that is open
    std::unique_ptr<station::StandingSource> m_source;
    std::shared_ptr<station::ModelLog> m_models;
    SharedFleetView m_last;
    station::FoundUnsaid m_unsaid{.isRead = false};  // as of the last one
};

}  // namespace desktop
