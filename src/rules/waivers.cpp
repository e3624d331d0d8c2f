// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Waivers; see waivers.h.
#include "rules/waivers.h"

namespace rules {

bool mayBeWaived(const Rulebook& rulebook, std::string_view finding, const std::string& subject) {
    if (finding == "service_overdue" || finding == "change_due") return true;
    if (finding != "due" && finding != "lapsed") return false;
    const auto* check = rulebook.check(subject);
    return check != nullptr && check->waivable;
}

logbook::Instant latestWaiverEnd(const Rulebook& rulebook, logbook::Instant at) {
    return at + rulebook.maxWaiver;
}

}  // namespace rules
