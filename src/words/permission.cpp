// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Permissions in words; see permission.h.
#include "words/permission.h"

#include "words/finding_words.h"

#include <algorithm>
#include <optional>
#include <vector>

namespace words {

std::string permission(const Context& context, const rules::Assessment& found) {
    if (found.verdict != rules::Verdict::Ready) return "";
    std::vector<std::string> permitted;
    std::optional<logbook::Instant> until;
    for (auto finding : found.findings) {
        if (!finding.waivedUntil || finding.blocks == rules::Blocks::No) continue;
        until = std::min(until.value_or(*finding.waivedUntil), *finding.waivedUntil);
        finding.waivedUntil.reset();
        permitted.push_back(brief(context, finding));
    }
    if (permitted.empty()) return "";
    return context.words.say(
        "standing.permitted",
        {{"time", context.times().time(*until)}, {"findings", context.words.all(permitted)}});
}

}  // namespace words
