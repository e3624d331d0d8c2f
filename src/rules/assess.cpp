// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The verdict from the findings, and how long it lasts. The findings themselves are in
// findings_device.cpp, findings_parts.cpp and findings_checks.cpp.
#include "rules/assess.h"

#include "rules/findings.h"
#include "rules/waivers.h"

#include <algorithm>
#include <array>
#include <set>
#include <tuple>

namespace rules {
namespace {

constexpr std::array<std::string_view, 22> findingNames{"change_due",
                                                        "conflict",
                                                        "due",
                                                        "expired",
                                                        "failed",
                                                        "fault",
                                                        "group_differs",
                                                        "group_unset",
                                                        "group_unsupported",
                                                        "lapsed",
                                                        "mismatch",
                                                        "missing",
                                                        "notice",
                                                        "service_due",
                                                        "service_failed",
                                                        "service_outstanding",
                                                        "service_overdue",
                                                        "spent",
                                                        "unprocessed",
                                                        "unseen",
                                                        "withdrawn",
                                                        "worn_out"};

Verdict verdictOf(const Device& device, const std::vector<Finding>& findings) {
    if (device.retired) return Verdict::Retired;
    if (!device.holds.empty()) return Verdict::Withdrawn;
    if (device.use) return Verdict::InUse;
    const bool blocks = std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
        return finding.blocking() == Blocks::Yes;
    });
    return blocks ? Verdict::NotReady : Verdict::Ready;
}

// A waiver covers only what was known to its writer: not a record after it, nor one entered after.
bool covers(const StandingWaiver& waiver, const Finding& finding, Instant at) {
    if (at >= waiver.until) return false;
    if (!finding.record) return true;
    return *finding.record < waiver.record && finding.record->entered <= waiver.record.entered;
}

void applyWaivers(const FindingContext& context, std::vector<Finding>& findings) {
    for (Finding& finding : findings) {
        if (!mayBeWaived(context.rulebook, name(finding.code), finding.subject)) continue;
        const auto waiver =
            context.device.waivers.find({std::string(name(finding.code)), finding.subject});
        if (waiver == context.device.waivers.end()) continue;
        if (covers(waiver->second, finding, context.at)) finding.waivedUntil = waiver->second.until;
    }
}

std::vector<Finding> findingsOf(const FindingContext& context, bool ignoreWaivers) {
    std::vector<Finding> findings;
    if (context.device.retired) return findings;
    addDeviceFindings(context, findings);
    addServiceFindings(context, findings);
    addPartFindings(context, findings);
    addCheckFindings(context, findings);
    if (!ignoreWaivers) applyWaivers(context, findings);
    std::sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        return std::tuple(name(a.code), std::string_view(a.subject)) <
               std::tuple(name(b.code), std::string_view(b.subject));
    });
    return findings;
}

// With nothing further recorded only these instants can change a verdict.
std::set<Instant> turningPoints(const FindingContext& context) {
    std::set<Instant> points;
    addCheckTurningPoints(context, points);
    addPartTurningPoints(context, points);
    addServiceTurningPoints(context, points);
    for (const auto& [key, waiver] : context.device.waivers) points.insert(waiver.until);
    points.erase(points.begin(), points.upper_bound(context.at));
    return points;
}

std::optional<Instant> readyUntil(FindingContext context, bool ignoreWaivers) {
    for (const Instant point : turningPoints(context)) {
        context.at = point;
        if (verdictOf(context.device, findingsOf(context, ignoreWaivers)) != Verdict::Ready) {
            return point;
        }
    }
    return std::nullopt;
}

}  // namespace

std::string_view name(Verdict verdict) {
    constexpr std::array<std::string_view, 5> names{"ready", "not_ready", "in_use", "withdrawn",
                                                    "retired"};
    return names.at(static_cast<std::size_t>(verdict));
}

std::string_view name(CheckStatus status) {
    constexpr std::array<std::string_view, 5> names{"exempt", "due", "failed", "lapsed", "current"};
    return names.at(static_cast<std::size_t>(status));
}

std::string_view name(FindingCode code) {
    return findingNames.at(static_cast<std::size_t>(code));
}

std::optional<FindingCode> findingCodeOf(std::string_view text) {
    const auto found = std::find(findingNames.begin(), findingNames.end(), text);
    if (found == findingNames.end()) return std::nullopt;
    return static_cast<FindingCode>(found - findingNames.begin());
}

std::string toText(const Finding& finding) {
    std::string text(name(finding.code));
    if (!finding.subject.empty()) text += ' ' + finding.subject;
    return text;
}

Assessment assess(const State& state, const Device& device, const Question& question) {
    FindingContext context{state, *state.rulebook, device, question.at, std::nullopt, std::nullopt};
    context.selected = device.group();
    context.group = question.group ? question.group : context.selected;
    Assessment assessment;
    assessment.device = device.serial;
    assessment.last = device.last;
    assessment.inUse = device.use.has_value();
    assessment.paused = device.use && device.use->paused;
    assessment.findings = findingsOf(context, question.ignoreWaivers);
    assessment.verdict = verdictOf(device, assessment.findings);
    if (device.retired) return assessment;
    assessment.group = context.group;
    for (const Check& check : context.rulebook.checks) {
        if (!question.wantChecks) break;
        assessment.checks.emplace(check.key, statusOf(state, device, check, question.at));
    }
    if (assessment.verdict == Verdict::Ready && question.wantReadyUntil) {
        assessment.readyUntil = readyUntil(context, question.ignoreWaivers);
    }
    return assessment;
}

bool blocked(const Assessment& assessment, bool atStart) {
    return std::any_of(assessment.findings.begin(), assessment.findings.end(),
                       [atStart](const Finding& finding) {
                           const Blocks blocks = finding.blocking();
                           return blocks == Blocks::Yes || (atStart && blocks == Blocks::Start);
                       });
}

}  // namespace rules
