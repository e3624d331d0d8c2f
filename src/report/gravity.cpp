// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The order of gravity; see gravity.h.
#include "report/gravity.h"

#include "words/finding_words.h"

#include <algorithm>
#include <set>

namespace report {

namespace {

using rules::Finding;
using rules::FindingCode;

constexpr int kinds = 8;

int gravityOfKind(const words::Context& context, const Finding& finding) {
    switch (finding.code) {
        case FindingCode::Withdrawn:
            return words::isSheetHold(context, rules::toText(finding)) ? 0 : 1;
        case FindingCode::Notice: return 2;
        case FindingCode::Fault: return 3;
        case FindingCode::Conflict:
        case FindingCode::Expired:
        case FindingCode::GroupDiffers:
        case FindingCode::GroupUnset:
        case FindingCode::GroupUnsupported:
        case FindingCode::Mismatch:
        case FindingCode::Missing:
        case FindingCode::Spent:
        case FindingCode::Unprocessed:
        case FindingCode::WornOut: return 4;
        case FindingCode::ChangeDue: return 5;
        case FindingCode::ServiceDue:
        case FindingCode::ServiceFailed:
        case FindingCode::ServiceOutstanding:
        case FindingCode::ServiceOverdue: return 6;
        case FindingCode::Due:
        case FindingCode::Failed:
        case FindingCode::Lapsed:
        case FindingCode::Unseen: break;
    }
    return 7;
}

}  // namespace

int gravity(const words::Context& context, const Finding& finding) {
    const auto blocking = finding.blocking();
    const int after = blocking == rules::Blocks::Yes ? 0 : blocking == rules::Blocks::Start ? 1 : 2;
    return after * kinds + gravityOfKind(context, finding);
}

std::vector<std::string> checksInOrder(const rules::Rulebook& rulebook) {
    std::vector<std::string> order;
    std::set<std::string> placed;
    // `after` has no cycle, so each round places one at least.
    while (order.size() < rulebook.checks.size()) {
        for (const auto& check : rulebook.checks) {
            const bool isFree = std::all_of(check.after.begin(), check.after.end(),
                                            [&](const auto& key) { return placed.contains(key); });
            if (!isFree || !placed.insert(check.key).second) continue;
            order.push_back(check.key);
            break;
        }
    }
    return order;
}

bool isOfCheck(const Finding& finding) {
    return finding.code == FindingCode::Due || finding.code == FindingCode::Failed ||
           finding.code == FindingCode::Lapsed;
}

}  // namespace report
