// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking ahead from the start of a shift: what stops being ready, which groups fall below par, and
// the least work that prevents it; as a model, as text and as JSON.
#pragma once

#include "logbook/json.h"
#include "report/outline.h"
#include "rules/horizon.h"

#include <string>

namespace report {

struct Horizon {
    Instant asked{};
    Duration ahead{};
    rules::State state;
    words::RecordLookup lookup;
    Provenance provenance;
    rules::Horizon found;

    // The log is in doubt: nothing that it says of ready is told.
    [[nodiscard]] bool inDoubt() const { return !provenance.devicesInDoubt.empty(); }
    // For sentences about a unit, "" for none in particular. The horizon must outlive it.
    [[nodiscard]] words::Context context(const words::Words& words,
                                         const std::string& device = "") const;
};

struct HorizonQuestion {
    Instant asked{};
    Duration ahead{};
};

// `state` is that at the instant asked, its rulebook set.
[[nodiscard]] Horizon makeHorizon(rules::State state, words::RecordLookup lookup,
                                  const HorizonQuestion& question, Provenance provenance);

[[nodiscard]] Outline outlineOf(const Horizon& horizon, const words::Words& words);
[[nodiscard]] std::string toText(const Horizon& horizon, const words::Words& words,
                                 const TextOptions& options = {});

// What `horizon --json` prints. In doubt it has `"in_doubt": true`, no lapses and no groups.
[[nodiscard]] logbook::json::Value toJson(const Horizon& horizon);

}  // namespace report
