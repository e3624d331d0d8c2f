// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an entry means; see entry_words.h.
#include "words/entry_words.h"

#include "words/finding_words.h"
#include "words/permission.h"

#include <algorithm>
#include <vector>

namespace words {

namespace {

namespace body = logbook::body;
using rules::Assessment;
using rules::Verdict;

// What stands in the way, in the shortest form each: of a unit out of service the holds alone. With
// `atStart` also what only a start of use waits for.
std::string lacking(const Context& context, const Assessment& found, bool atStart) {
    std::vector<std::string> briefs;
    for (const auto& finding : found.findings) {
        const auto blocks = finding.blocking();
        const bool counts =
            found.verdict != Verdict::Withdrawn || finding.code == rules::FindingCode::Withdrawn;
        if (counts &&
            (blocks == rules::Blocks::Yes || (atStart && blocks == rules::Blocks::Start))) {
            briefs.push_back(brief(context, finding));
        }
    }
    return context.words.all(briefs);
}

std::string keyOf(const Assessment& found, bool lacks) {
    switch (found.verdict) {
        case Verdict::Ready: return found.readyUntil ? "ready_until" : "ready";
        case Verdict::NotReady: return found.group ? "not_ready" : "not_ready_yet";
        case Verdict::InUse: return lacks ? "in_use_lacking" : "in_use";
        case Verdict::Withdrawn: return "withdrawn";
        case Verdict::Retired: break;
    }
    return "retired";
}

// The reason by the kind: what would have had to be so for the entry to change something.
struct Reason {
    const Context& context;
    Gaps& gaps;

    std::string operator()(const body::Check& check) const {
        gaps["check"] = context.words.inside(checkLabel(context, check.check));
        return "check";
    }
    std::string operator()(const body::Clear& clear) const {
        gaps["fault"] = context.words.inside(faultLabel(context, clear.code));
        return "clear";
    }
    std::string operator()(const body::Release& release) const {
        gaps["hold"] = context.words.inside(holdLabel(context, release.hold));
        return "release";
    }
    std::string operator()(const body::Remove& remove) const {
        gaps["position"] = context.words.inside(positionLabel(context, remove.position));
        return "remove";
    }
    std::string operator()(const body::UseEnd&) const { return "not_in_use"; }
    std::string operator()(const body::UsePause&) const {
        return context.device && context.device->use ? "paused_already" : "not_in_use";
    }
    std::string operator()(const body::UseResume&) const {
        return context.device && context.device->use ? "not_paused" : "not_in_use";
    }
    std::string operator()(const body::UseStart&) const { return "goes_on"; }
    template <class Other>
    std::string operator()(const Other&) const {
        return "so_already";
    }
};

}  // namespace

std::string standingSentence(const Context& context, const Assessment& found) {
    const auto findings = lacking(context, found, false);
    Gaps gaps{{"device", found.device},
              {"findings", findings},
              {"group", found.group ? groupLabel(context, *found.group) : ""},
              {"time", found.readyUntil ? context.times().time(*found.readyUntil) : ""}};
    const auto told = context.words.say("standing." + keyOf(found, !findings.empty()), gaps);
    const auto permitted = permission(context, found);
    return permitted.empty() ? told : told + " " + permitted;
}

std::string worseSentence(const Context& context, const Assessment& before,
                          const Assessment& after) {
    const bool isLost = before.verdict == Verdict::Ready && after.verdict != Verdict::Ready;
    const auto key = isLost ? "entry.no_longer_ready" : "entry.worse_in_use";
    if (!isLost && !(before.inUse && after.inUse)) return "";
    auto added = after;
    std::erase_if(added.findings, [&](const rules::Finding& finding) {
        return std::ranges::any_of(before.findings, [&](const rules::Finding& known) {
            return rules::toText(known) == rules::toText(finding) &&
                   known.blocking() == rules::Blocks::Yes;
        });
    });
    const auto findings = lacking(context, added, false);
    if (findings.empty()) return "";
    return context.words.say(key, {{"device", after.device}, {"findings", findings}});
}

std::string unreadyStart(const Context& context, const Assessment& found) {
    const Gaps gaps{{"device", found.device}, {"findings", lacking(context, found, true)}};
    // Ready by these entries, but for what is done at the bedside: not said, there may be others.
    if (found.verdict == Verdict::Ready) return context.words.say("entry.unfinished_start", gaps);
    return context.words.say("entry.unready_start", gaps);
}

std::string noEffect(const Context& context, const logbook::Record& record) {
    Gaps gaps{{"device", record.device}};
    const auto key = std::visit(Reason{context, gaps}, record.body);
    return context.words.say("no_effect." + key, gaps);
}

}  // namespace words
