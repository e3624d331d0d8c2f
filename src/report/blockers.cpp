// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings and blockers from their short form; see blockers.h.
#include "report/blockers.h"

#include "words/finding_words.h"
#include "words/record_words.h"

namespace report {

rules::Finding findingNamed(const rules::Assessment& assessment, const std::string& text) {
    for (const auto& finding : assessment.findings)
        if (rules::toText(finding) == text) return finding;
    const auto blank = text.find(' ');
    rules::Finding finding;
    const auto code = rules::findingCodeOf(text.substr(0, blank));
    finding.code = code.value_or(rules::FindingCode::Missing);
    if (blank != std::string::npos) finding.subject = text.substr(blank + 1);
    return finding;
}

std::string blockerText(const words::Context& context, const rules::Assessment& assessment,
                        const std::string& blocker) {
    const auto word = blocker.substr(0, blocker.find(' '));
    if (rules::findingCodeOf(word))
        return words::sentence(context, findingNamed(assessment, blocker)).text();
    return words::blocker(context, blocker).text();
}

}  // namespace report
