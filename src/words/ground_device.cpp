// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings about the unit itself and its services, in words: holds, faults, notices, groups.
#include "words/finding_words.h"
#include "words/ground.h"
#include "words/record_words.h"
#include "words/shown.h"

#include <algorithm>

namespace words {

namespace {

using rules::Finding;
using rules::FindingCode;

std::string timeOf(const Context& context, const Finding& finding) {
    const auto since = finding.record ? std::optional(finding.record->at) : finding.since;
    return since ? context.times().time(*since) : context.words.say("plain.unknown");
}

std::string sheetOf(const Context& context, const rules::Hold* hold) {
    std::string lines;
    if (!hold) return lines;
    for (const auto& line : hold->sheet)
        lines += (lines.empty() ? "" : " ") + context.words.label(line, "");
    return lines;
}

Sentence withdrawnGround(const Context& context, const Finding& finding) {
    const auto* hold = context.state.rulebook->hold(finding.subject);
    Gaps gaps{{"time", timeOf(context, finding)},
              {"hold", context.words.inside(holdLabel(context, finding.subject))}};
    if (context.device && context.device->holds.contains(finding.subject))
        gaps["reason"] = context.device->holds.find(finding.subject)->second.reason;
    const auto sheet = sheetOf(context, hold);
    if (!sheet.empty()) return {context.words.say("finding.withdrawn_sheet.says", gaps), sheet};
    const bool reasoned = gaps.contains("reason") && !gaps["reason"].empty();
    const auto says = reasoned ? "finding.withdrawn_reason.says" : "finding.withdrawn.says";
    const auto roles = rolesFor(context, logbook::Kind::Release, finding.subject);
    const auto action = roles.empty() ? context.words.say("finding.withdrawn.do")
                                      : context.words.say("finding.withdrawn_roles.do",
                                                          {{"roles", roleList(context, roles)}});
    return {context.words.say(says, gaps), advisedOr(context, hold, action)};
}

Sentence faultGround(const Context& context, const Finding& finding) {
    Gaps gaps{{"time", timeOf(context, finding)},
              {"fault", context.words.inside(faultLabel(context, finding.subject))}};
    if (context.device && context.device->faults.contains(finding.subject))
        gaps["text"] = context.device->faults.find(finding.subject)->second.text;
    const bool told = gaps.contains("text") && !gaps["text"].empty();
    const auto roles = rolesFor(context, logbook::Kind::Clear);
    std::string action = context.words.say("finding.fault.do");
    if (finding.blocks == rules::Blocks::No) {
        action = context.words.say("finding.fault_usable.do");
    } else if (!roles.empty()) {
        action = context.words.say("finding.fault_roles.do", {{"roles", roleList(context, roles)}});
    }
    const auto* rule = context.state.rulebook->fault(finding.subject);
    return {context.words.say(told ? "finding.fault_text.says" : "finding.fault.says", gaps),
            advisedOr(context, rule, action)};
}

bool contains(const std::optional<std::vector<std::string>>& list, std::string_view text) {
    return list && std::find(list->begin(), list->end(), text) != list->end();
}

// The fitted part that a notice names by lot, serial or model; the key of the sentence that says
// so.
std::string namePart(const Context& context, const logbook::body::Match& match, Gaps& gaps) {
    if (!context.device) return "finding.notice_stop";
    for (const auto& [position, part] : context.device->fitted) {
        if (match.position && *match.position != position) continue;
        gaps["position"] = context.words.inside(positionLabel(context, position));
        const auto& attributes = part.attributes;
        if (contains(match.lots, attributes.text("lot"))) {
            gaps["lot"] = attributes.text("lot");
            return "finding.notice_stop_lot";
        }
        if (contains(match.serials, attributes.serial()) ||
            contains(match.partModels, attributes.text("model"))) {
            const bool bySerial = contains(match.serials, attributes.serial());
            gaps["part"] = bySerial ? attributes.serial() : attributes.text("model");
            return "finding.notice_stop_part";
        }
    }
    return "finding.notice_stop";
}

Sentence noticeGround(const Context& context, const Finding& finding) {
    Gaps gaps{{"notice", readable(finding.subject)}, {"title", ""}};
    const auto known = context.state.notices.find(finding.subject);
    std::string key = "finding.notice_stop";
    if (known != context.state.notices.end()) {
        const auto& notice = known->second.notice;
        gaps["title"] = notice.title;
        switch (notice.action) {
            case logbook::NoticeAction::StopUse: key = namePart(context, notice.match, gaps); break;
            case logbook::NoticeAction::Inspect: key = "finding.notice_inspect"; break;
            case logbook::NoticeAction::Information: key = "finding.notice_information"; break;
        }
    }
    return context.words.sentence(key, gaps);
}

Sentence groupDiffers(const Context& context, const Finding& finding) {
    Gaps gaps{{"group", groupLabel(context, finding.subject)}};
    const auto selected = context.device ? context.device->group() : std::nullopt;
    if (selected) gaps["selected"] = groupLabel(context, *selected);
    const auto says = selected ? "finding.group_differs.says" : "finding.group_differs_unset.says";
    return {context.words.say(says, gaps), context.words.say("finding.group_differs.do", gaps)};
}

std::string serviceAction(const Context& context, const Finding& finding, std::string_view key) {
    const auto roles = rolesFor(context, logbook::Kind::Service);
    const std::string name(key);
    const auto action = roles.empty() ? context.words.say(name + ".do")
                                      : context.words.say(name + "_roles.do",
                                                          {{"roles", roleList(context, roles)}});
    return advisedOr(context, context.state.rulebook->service(finding.subject), action);
}

Sentence serviceOutstanding(const Context& context, const Finding& finding, Gaps gaps) {
    std::string key = "finding.service_outstanding.says";
    const auto* record = finding.record ? context.record(finding.record->name) : nullptr;
    if (record) {
        gaps["event"] = recordClause(context, *record);
        key = "finding.service_outstanding_event.says";
    } else if (!finding.record) {
        key = "finding.service_outstanding_new.says";
    }
    return {context.words.say(key, gaps),
            serviceAction(context, finding, "finding.service_outstanding")};
}

Sentence serviceDue(const Context& context, const Finding& finding, Gaps gaps) {
    const auto* rule = context.state.rulebook->service(finding.subject);
    if (!finding.since || !rule) return context.words.sentence("finding.service_due_plain", gaps);
    const auto due = context.state.rulebook->zone->dayOf(*finding.since) - std::chrono::days(1);
    gaps["day"] = context.times().day(due);
    gaps["last_day"] = context.times().day(due + std::chrono::days(rule->graceDays));
    return {context.words.say("finding.service_due.says", gaps),
            advisedOr(context, rule, context.words.say("finding.service_due.do", gaps))};
}

}  // namespace

std::string advisedOr(const Context& context, const rules::Named* named, std::string action) {
    auto advice = adviceOf(context, named);
    return advice.empty() ? std::move(action) : std::move(advice);
}

Sentence deviceGround(const Context& context, const Finding& finding) {
    switch (finding.code) {
        case FindingCode::Withdrawn: return withdrawnGround(context, finding);
        case FindingCode::Fault: return faultGround(context, finding);
        case FindingCode::Notice: return noticeGround(context, finding);
        case FindingCode::GroupDiffers: return groupDiffers(context, finding);
        case FindingCode::GroupUnset: return context.words.sentence("finding.group_unset");
        case FindingCode::GroupUnsupported:
            return context.words.sentence("finding.group_unsupported",
                                          {{"group", groupLabel(context, finding.subject)}});
        default: break;
    }
    const auto action = context.words.say("finding.unseen.do");
    if (!finding.record) return {context.words.say("finding.unseen_plain.says"), action};
    const auto span = duration(context.words, context.asked - finding.record->at);
    return {context.words.say("finding.unseen.says", {{"duration", span}}), action};
}

Sentence serviceGround(const Context& context, const Finding& finding) {
    const Gaps gaps{{"service", context.words.inside(serviceLabel(context, finding.subject))}};
    if (finding.code == FindingCode::ServiceOutstanding)
        return serviceOutstanding(context, finding, gaps);
    if (finding.code == FindingCode::ServiceDue) return serviceDue(context, finding, gaps);
    Gaps more = gaps;
    if (finding.code == FindingCode::ServiceFailed) {
        more["when"] = finding.record ? context.times().when(finding.record->at) : "";
        return {context.words.say("finding.service_failed.says", more),
                serviceAction(context, finding, "finding.service_failed")};
    }
    std::string key = "finding.service_overdue_plain.says";
    if (finding.since) {
        more["day"] = context.times().dayOf(*finding.since);
        key = "finding.service_overdue.says";
    }
    return {context.words.say(key, more),
            serviceAction(context, finding, "finding.service_overdue")};
}

}  // namespace words
