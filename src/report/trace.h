// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where the parts of a lot, of a serial, of a reprocess load or under a notice were and are: as a
// model, as text for whoever carries out a recall, and as JSON.
#pragma once

#include "logbook/json.h"
#include "report/layout.h"
#include "report/provenance.h"
#include "rules/trace.h"
#include "rules/trace_alike.h"

#include <string>
#include <vector>

namespace report {

struct Trace {
    rules::Trace found;
    Provenance provenance;
    words::RecordLookup lookup;
    std::vector<std::string> alike;  // keys in the log spelled almost like the one traced
    words::RecordLookup confirmations{};  // for sentences about entries; may be empty

    // For sentences about the parts and units. The trace must outlive it.
    [[nodiscard]] words::Context context(const words::Words& words) const;
};

// The log must outlive the trace. Precondition: the log has an edition.
[[nodiscard]] Trace makeTrace(const rules::Log& log, const rules::TraceQuestion& question,
                              Provenance provenance);

[[nodiscard]] std::string toText(const Trace& trace, const words::Words& words,
                                 const TextOptions& options = {});

[[nodiscard]] logbook::json::Value toJson(const Trace& trace);

}  // namespace report
