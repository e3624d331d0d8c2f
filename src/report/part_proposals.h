// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a part that is about to be fitted is probably like, from what was fitted before, so that
// nobody has to type it: never what is only true of one single part.
#pragma once

#include "rules/log.h"
#include "words/context.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace report {

// Attributes as a `fit` states them. `texts` holds the model and, where they were stated, `reuse`,
// `technology`, `layout` …; a proposal never holds serial, lot or `expires`, unless it is that very
// part: one known by its serial, or one that is put back.
struct PartProposal {
    std::string position;
    std::string label;  // of the position, "Flow sensor"
    std::map<std::string, std::string, std::less<>> texts;
    std::optional<std::vector<std::string>> groups;
    std::string summary;  // "Sorrel FS2, for Adult and Pediatric"; "" if nothing is known
    std::string source;   // "as fitted on 2 Mar in unit KB-0150"; "" if from nowhere

    // Where the part before in that position was for other groups: that, and what it is for now,
    // to be confirmed in words. "" if they are the same, or nothing is known of one of them.
    std::string otherGroups;
    // A part known by its serial that stands in another unit: that it would be taken out there.
    std::string standsElsewhere;
};

// The attributes that are true of a single part only: serial, lot, expires, udi.
[[nodiscard]] bool isOfOnePart(std::string_view attribute);

// For a scanned or typed model: each position into which a part of that model was ever fitted, with
// what the last fit of it stated, on whichever unit. The one needed on the unit first, then those
// empty, then by label. Only records that take part as known at `knownAt` and up to the instant
// asked count.
[[nodiscard]] std::vector<PartProposal> proposalsForModel(const words::Context& context,
                                                          const rules::Log& log,
                                                          logbook::Instant knownAt,
                                                          std::string_view model);

// For the serial of a known part: each position it is known in, with all that is known of it.
[[nodiscard]] std::vector<PartProposal> proposalsForSerial(const words::Context& context,
                                                           std::string_view serial);

// For a lot, with the parts of it that are known: each position, with what that part is like, or
// where nothing is known of it the part before there; the lot is stated. In the same order.
[[nodiscard]] std::vector<PartProposal> proposalsForLot(
    const words::Context& context, const std::map<std::string, rules::PartAttributes>& known,
    std::string_view lot);

// For a position: like the part it held last, for `group` where that one was not.
[[nodiscard]] PartProposal proposalForPosition(const words::Context& context,
                                               const std::string& position,
                                               const std::optional<std::string>& group);

// The very part that was fitted there since then, to be put back: with all that is known of it.
[[nodiscard]] PartProposal putBackProposal(const words::Context& context,
                                           const std::string& position,
                                           const rules::PartAttributes& part,
                                           logbook::Instant since);

// That a part with this code on it was known in other positions than the one for which it is stated
// now, to be confirmed.
[[nodiscard]] std::string otherPositionSentence(const words::Context& context,
                                                const std::string& code,
                                                const std::vector<PartProposal>& known,
                                                const std::string& position);

// What another group than before means, in a sentence to be confirmed, for what is about to be
// fitted; "" where nothing is to be confirmed.
[[nodiscard]] std::string otherGroupsSentence(
    const words::Context& context, const std::string& position,
    const std::optional<std::vector<std::string>>& groups);

}  // namespace report
