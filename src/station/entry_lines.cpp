// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lines; see entry_lines.h.
#include "station/entry_lines.h"

#include "station/own_records.h"
#include "words/record_words.h"

namespace station {

std::vector<std::string> entryLines(const Surroundings& surroundings, const Standing& standing,
                                    const std::vector<Entry>& entries) {
    const auto now = surroundings.clock.now();
    std::vector<std::string> lines;
    for (const auto& entry : entries) {
        // Who did it stands beside it, and the name is not known yet.
        Draft draft{{Writer("somebody"), entry.kind, entry.device, entry.body, entry.at},
                    {"somebody", "somebody"}};
        const auto record =
            recordOf(surroundings, draft, {standing.facts.ownStation.value_or("here"), 1}, now);
        if (!record) {
            continue;
        }
        const words::Context context{surroundings.words, standing.state,
                                     standing.state.device(entry.device), now, {}, {}};
        auto line = words::recordLine(context, *record);
        if (entry.at) {
            line += ", " + context.times().time(*entry.at);
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

}  // namespace station
