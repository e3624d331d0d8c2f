// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The PIN once more; see pin_again.h.
#include "station/pin_again.h"

#include "logbook/kind.h"

#include <algorithm>

namespace station {

bool wantsPinAgain(std::string_view kind) {
    using logbook::Kind;
    const auto known = logbook::kindOf(kind);
    return known == Kind::Release || known == Kind::Waive || known == Kind::Strike ||
           known == Kind::Adopt;
}

bool wantsPinAgain(const std::vector<Entry>& entries) {
    return std::ranges::any_of(entries,
                               [](const Entry& entry) { return wantsPinAgain(entry.kind); });
}

}  // namespace station
