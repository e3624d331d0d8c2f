// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The set-up of one unit: every position with what is fitted, since when, and what is wrong with
// it. Plain data, in words already.
#pragma once

#include "report/part_proposals.h"
#include "rules/assess.h"
#include "words/context.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace report {

struct FittedText {
    std::string model, serial, lot;  // "" where it is not stated
    std::string name;                // the three together: "FS-1, lot 4471, Sorrel FS2"
    std::string expires;             // "31 Oct", the last day; "" where it has none
    std::string since;               // "10 Nov 07:20"
    logbook::Instant fittedAt{};
    logbook::RecordName record;      // the fit
    std::string groups;              // "Adult and Pediatric"; "" where it states none
    std::string life;                // "not used", "used since 10 Nov 12:00; reprocessed 3 times"
    bool used = false;
    int reprocessed = 0;
    std::vector<std::pair<std::string, std::string>> further;  // "layout", "coaxial"
};

struct SetupPosition {
    std::string key;
    std::string label;
    bool named = true;      // false: an earlier edition knew it, this one does not
    bool required = false;  // on this unit, as it is set up now
    std::string choice;     // of which choice it is one, "Humidification"; "" of none
    std::optional<FittedText> fitted;
    std::optional<PartProposal> putBack;  // the part taken out of there unused, whole
    std::vector<std::string> wrong;   // in brief: "flow sensor needs reprocessing"
    bool canReprocess = false;        // what is fitted is reusable
    logbook::Level level{};           // then the least that counts
    std::string levelText;
};

// In the order of the edition's labels, then those it does not name. Empty for a retired unit.
[[nodiscard]] std::vector<SetupPosition> makeSetup(const words::Context& context,
                                                   const rules::Assessment& found);

}  // namespace report
