// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking back at one unit: what could be known of it at an instant, what was so by all that is
// known now, and what was entered or struck through since; as a model, as text and as JSON.
#pragma once

#include "report/explain.h"
#include "report/outline.h"
#include "rules/look_back.h"

#include <optional>
#include <string>
#include <vector>

namespace report {

// An entry about the time before the instant that was made, or struck through, since.
struct SinceEntry {
    logbook::Record record;
    bool enteredSince = false;
    std::optional<logbook::Record> strike;  // the strike, if one was made since
};

struct LookingBack {
    std::string device;
    Instant asked{};
    Instant knownAt{};                     // what could be known: entered by then
    std::optional<Explain> known, actual;  // none: not enrolled by what was, or is, known
    std::vector<SinceEntry> since;         // in reading order

    // Whether verdict, findings, checks, group and place are the same by both.
    [[nodiscard]] bool isSame() const;
};

struct LookBackQuestion {
    std::string device;
    Instant asked{};
    Instant knownAt{};
    std::optional<std::string> group;  // none: the selected one
};

// None if the unit was not enrolled then, by what was known or by what is. Precondition: an edition
// is known for both. The log must outlive it.
[[nodiscard]] std::optional<LookingBack> makeLookingBack(const rules::Log& log,
                                                         const LookBackQuestion& question,
                                                         const Provenance& provenance);

// As pieces of a page, for a screen; the same that the text says.
[[nodiscard]] Outline outlineOf(const LookingBack& back, const words::Words& words);
[[nodiscard]] std::string toText(const LookingBack& back, const words::Words& words,
                                 const TextOptions& options = {});

// The member `look_back` that `explain --json` has besides where the past is asked.
[[nodiscard]] logbook::json::Value toJson(const LookingBack& back);

}  // namespace report
