// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The editions as one hash; see grounding.h.
#include "station/grounding.h"

#include "store/hash.h"

#include <algorithm>

namespace station {

bool Grounding::hasPersonsOf(const rules::State& state) const {
    return std::ranges::all_of(state.persons, [this](const auto& known) {
        return m_names.contains(known.second.record.name);
    });
}

store::Hash rulebooksUpTo(const store::Place& place,
                          const std::vector<logbook::Record>& founding) {
    store::Hash hash{};
    for (const auto& record : founding) {
        if (record.kind() == logbook::Kind::Adopt && !(place < store::placeOf(record))) {
            hash = store::chainHash(hash, record.content);
        }
    }
    return hash;
}

}  // namespace station
