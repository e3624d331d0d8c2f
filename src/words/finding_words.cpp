// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Puts together what a finding rests on, the attempt that did not count, the wait and the waiver.
#include "words/finding_words.h"

#include "rules/finding_positions.h"
#include "words/ground.h"
#include "words/notice_text.h"
#include "words/shown.h"

namespace words {

namespace {

using rules::Finding;
using rules::FindingCode;

std::string waivedAction(const Context& context, const Finding& finding) {
    Gaps gaps{{"time", context.times().time(*finding.waivedUntil)}};
    if (context.device) {
        const auto key = rules::WaiverKey{std::string(rules::name(finding.code)), finding.subject};
        const auto waiver = context.device->waivers.find(key);
        const auto* record = waiver == context.device->waivers.end()
                                 ? nullptr
                                 : context.record(waiver->second.record.name);
        if (record) {
            gaps["person"] = personName(context, record->by);
            gaps["reason"] = waiver->second.reason;
            return context.words.say("finding.waived.do", gaps);
        }
    }
    return context.words.say("finding.waived_plain.do", gaps);
}

std::string waitAction(const Context& context, const Finding& finding) {
    return context.words.say("finding.not_before.do",
                             {{"check", context.words.inside(checkLabel(context, finding.subject))},
                              {"time", context.times().time(wholeMinute(*finding.notBefore))},
                              {"wait", wait(context.words, *finding.notBefore - context.asked)}});
}

std::string eventKey(rules::EventKind kind) {
    switch (kind) {
        case rules::EventKind::Fit:
        case rules::EventKind::Change: return "event.fit";
        case rules::EventKind::Remove: return "event.remove";
        case rules::EventKind::Reprocess: return "event.reprocess";
        case rules::EventKind::Group: return "event.group";
        case rules::EventKind::PowerOn: return "event.power_on";
        case rules::EventKind::PowerOff: return "event.power_off";
        case rules::EventKind::UseStart: return "event.use_start";
        case rules::EventKind::UsePause: return "event.use_pause";
        case rules::EventKind::UseResume: return "event.use_resume";
        case rules::EventKind::UseEnd: return "event.use_end";
        case rules::EventKind::Soil: return "event.soil";
        case rules::EventKind::Alarm: return "event.alarm";
        case rules::EventKind::Fault: return "event.fault";
        case rules::EventKind::Clear: return "event.clear";
        case rules::EventKind::Service: return "event.service";
        case rules::EventKind::Release: return "event.release";
        case rules::EventKind::Move: return "event.move";
        case rules::EventKind::Software: break;
    }
    return "event.software";
}

struct ReasonParts {
    std::string word;
    std::string subject;
};

ReasonParts split(std::string_view reason) {
    const auto blank = reason.find(' ');
    if (blank == std::string_view::npos) return {std::string(reason), ""};
    return {std::string(reason.substr(0, blank)), std::string(reason.substr(blank + 1))};
}

// Which limit the recorded value broke; nothing if the value or the limit is not known.
std::optional<OutOfLimits> brokenLimit(const Context& context, std::string_view check,
                                       const rules::Discounted& discounted,
                                       const std::string& measure) {
    const auto* rule = context.state.rulebook->check(check);
    const auto* measureRule = rule ? rules::findMeasure(*rule, measure) : nullptr;
    const auto* record = context.record(discounted.record.name);
    const auto* body = record ? std::get_if<logbook::body::Check>(&record->body) : nullptr;
    if (!measureRule || !body || !body->measures.contains(measure)) return std::nullopt;
    const auto group = context.device ? context.device->group() : context.group;
    return outOfLimits(*measureRule, body->measures.find(measure)->second, group);
}

// Whether nothing has to be waited for any more.
bool waitIsOver(const Context& context, const rules::Check* rule) {
    if (!context.device || !rule) return false;
    const auto until = rules::notBefore(*context.device, *rule, *context.state.rulebook);
    return !until || *until <= context.asked;
}

std::string fillMeasure(const Context& context, std::string_view check,
                        const std::optional<OutOfLimits>& broken, const std::string& measure,
                        Gaps& gaps) {
    gaps["measure"] = context.words.inside(measureLabel(context, check, measure));
    if (!broken) return "discount.measure";
    const auto* rule = context.state.rulebook->check(check);
    const auto both = compared(context.words, *broken, rules::findMeasure(*rule, measure)->unit);
    gaps["value"] = both.value;
    gaps["limit"] = both.limit;
    return broken->over ? "discount.measure_max" : "discount.measure_min";
}

}  // namespace

std::string eventClause(const Context& context, const rules::Event& event, logbook::Instant at) {
    const auto& words = context.words;
    return words.say(eventKey(event.kind),
                     {{"when", context.times().when(at)},
                      {"position", words.inside(positionLabel(context, event.subject))},
                      {"alarm", alarmLabel(context, event.subject)},
                      {"fault", faultLabel(context, event.subject)},
                      {"service", words.inside(serviceLabel(context, event.subject))},
                      {"hold", holdLabel(context, event.subject)}});
}

Sentence discountReason(const Context& context, std::string_view check,
                        const rules::Discounted& discounted, std::string_view reason) {
    const auto [word, subject] = split(reason);
    const auto& words = context.words;
    Gaps gaps{{"check", words.inside(checkLabel(context, check))}};
    std::string key = "discount." + word;
    if (word == "measure") {
        const auto broken = brokenLimit(context, check, discounted, subject);
        key = fillMeasure(context, check, broken, subject, gaps);
    } else if (!words.has(key + ".says")) {
        key = "discount.other";
    } else {
        gaps["measure"] = words.inside(measureLabel(context, check, subject));
        gaps["condition"] = words.inside(conditionLabel(context, subject));
        gaps["position"] = words.inside(positionLabel(context, subject));
        gaps["other"] = words.inside(checkLabel(context, subject));
    }
    auto told = words.sentence(key, gaps);
    const auto* rule = context.state.rulebook->check(check);
    if (word == "too_early" && waitIsOver(context, rule))
        told.action = words.say("discount.too_early_over.do", gaps);
    if (word == "measure" && rule)
        told.action = advisedOr(context, rules::findMeasure(*rule, subject), told.action);
    return told;
}

Sentence discountedSentence(const Context& context, std::string_view check,
                            const rules::Discounted& discounted) {
    const auto& words = context.words;
    std::vector<std::string> clauses;
    std::string action;
    for (const auto& reason : discounted.reasons) {
        const auto told = discountReason(context, check, discounted, reason);
        if (action.empty()) action = told.action;
        clauses.push_back(told.says);
    }
    const Gaps gaps{{"time", context.times().time(discounted.record.at)},
                    {"check", words.inside(checkLabel(context, check))},
                    {"reasons", words.all(clauses)}};
    // To put one of several right is not enough, and each with its own advice is too long to read.
    if (clauses.size() > 1) action = words.say("finding.discounted_all.do", gaps);
    return {words.say("finding.discounted.says", gaps), action};
}

Sentence groundSentence(const Context& context, const Finding& finding) {
    switch (finding.code) {
        case FindingCode::Due:
        case FindingCode::Failed:
        case FindingCode::Lapsed: return checkGround(context, finding);
        case FindingCode::ServiceDue:
        case FindingCode::ServiceFailed:
        case FindingCode::ServiceOutstanding:
        case FindingCode::ServiceOverdue: return serviceGround(context, finding);
        case FindingCode::ChangeDue:
        case FindingCode::Conflict:
        case FindingCode::Expired:
        case FindingCode::Mismatch:
        case FindingCode::Missing:
        case FindingCode::Spent:
        case FindingCode::Unprocessed:
        case FindingCode::WornOut: return partGround(context, finding);
        case FindingCode::Fault:
        case FindingCode::GroupDiffers:
        case FindingCode::GroupUnset:
        case FindingCode::GroupUnsupported:
        case FindingCode::Notice:
        case FindingCode::Unseen:
        case FindingCode::Withdrawn: break;
    }
    return deviceGround(context, finding);
}

Sentence sentence(const Context& context, const Finding& finding) {
    auto told = finding.discounted
                    ? discountedSentence(context, finding.subject, *finding.discounted)
                    : groundSentence(context, finding);
    if (finding.notBefore) told.action = waitAction(context, finding);
    if (finding.waivedUntil) told.action = waivedAction(context, finding);
    if (sheetHoldStands(context) && !isSheetHold(context, rules::toText(finding)))
        told.action = context.words.say("finding.on_hold.do");
    return told;
}

bool isSheetHold(const Context& context, std::string_view finding) {
    constexpr std::string_view withdrawn = "withdrawn ";
    if (!finding.starts_with(withdrawn)) return false;
    const auto* hold = context.state.rulebook->hold(finding.substr(withdrawn.size()));
    return hold && !hold->sheet.empty();
}

bool sheetHoldStands(const Context& context) {
    if (!context.device) return false;
    for (const auto& [key, standing] : context.device->holds) {
        const auto* hold = context.state.rulebook->hold(key);
        if (hold && !hold->sheet.empty()) return true;
    }
    return false;
}

// The parts that a stop-use notice is about, which is what to look for on the unit.
static std::string noticedParts(const Context& context, const Finding& finding) {
    if (!context.device) return "";
    std::vector<std::string> labels;
    for (const auto& position :
         rules::positionsOf(finding, context.state, *context.device, context.asked))
        labels.push_back(context.words.inside(positionLabel(context, position)));
    return context.words.all(labels);
}

static std::string briefKey(const Context& context, const Finding& finding,
                            const std::string& parts) {
    std::string key = "brief." + std::string(rules::name(finding.code));
    const bool isChoice = finding.code == FindingCode::Conflict &&
                          context.state.rulebook->choice(finding.subject);
    const bool isStop =
        finding.code == FindingCode::Notice && finding.blocks == rules::Blocks::Yes;
    if (isChoice) return key + "_choice";
    return !isStop ? key : key + (parts.empty() ? "_stop" : "_stop_part");
}

std::string brief(const Context& context, const Finding& finding) {
    const auto& words = context.words;
    const bool isNotice = finding.code == FindingCode::Notice;
    const auto label = isNotice ? noticeTitle(context, finding.subject)
                                : words.inside(subjectLabel(context, finding));
    const auto parts = isNotice ? noticedParts(context, finding) : label;
    const auto group = context.group ? groupLabel(context, *context.group) : label;
    const bool aboutGroup =
        finding.code == FindingCode::GroupDiffers || finding.code == FindingCode::GroupUnsupported;
    auto text = words.say(briefKey(context, finding, parts),
                          {{"hold", label},
                           {"fault", label},
                           {"notice", label},
                           {"service", label},
                           {"position", parts},
                           {"conflict", label},
                           {"check", label},
                           {"group", aboutGroup ? subjectLabel(context, finding) : group}});
    if (finding.waivedUntil)
        return words.say("brief.permitted",
                         {{"finding", text}, {"time", context.times().time(*finding.waivedUntil)}});
    if (finding.notBefore)
        return words.say(
            "brief.wait",
            {{"finding", text}, {"time", context.times().time(wholeMinute(*finding.notBefore))}});
    return text;
}

Sentence unenrolledSentence(const Context& context) {
    return context.words.sentence("finding.unenrolled");
}

std::string unenrolledBrief(const Context& context) {
    return context.words.say("brief.unenrolled");
}

}  // namespace words
