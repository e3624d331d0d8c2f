// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By the records that the entries would be; see entry_permission.h.
#include "station/entry_permission.h"

#include "rules/authority.h"
#include "station/own_records.h"
#include "words/record_words.h"

#include <algorithm>

namespace station {

std::optional<Problem> lackOfPermission(const Surroundings& surroundings,
                                        const Standing& standing,
                                        const std::vector<Entry>& entries,
                                        const std::string& person) {
    const auto now = std::max(standing.at, surroundings.clock.now());
    for (const auto& entry : entries) {
        Draft draft{{Writer(person), entry.kind, entry.device, entry.body}, {person, person}};
        const auto record =
            recordOf(surroundings, draft, {standing.facts.ownStation.value_or("here"), 1}, now);
        if (!record || record->kind() == logbook::Kind::Strike) {
            continue;
        }
        const auto permission = rules::mayWrite(standing.state, *record);
        if (permission.allowed) {
            continue;
        }
        const words::Context context{surroundings.words, standing.state,
                                     standing.state.device(entry.device), now, {},
                                     standing.lookup};
        return Problem{Problem::Weight::Input, "refusal.roles",
                       words::refusal(context, *record, permission), {}};
    }
    return std::nullopt;
}

}  // namespace station
