// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What may be permitted for a time, and until when: the same for the fold, for an assessment, and
// for whoever offers it.
#pragma once

#include "logbook/instant.h"
#include "rules/rulebook.h"

#include <string>
#include <string_view>

namespace rules {

// Whether a finding, by its name, may be waived. A check that the edition does not name may not.
[[nodiscard]] bool mayBeWaived(const Rulebook& rulebook, std::string_view finding,
                               const std::string& subject);

// The latest end of a waiver that is written at that instant.
[[nodiscard]] logbook::Instant latestWaiverEnd(const Rulebook& rulebook, logbook::Instant at);

}  // namespace rules
