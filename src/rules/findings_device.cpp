// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings about the device itself: holds, faults, notices, its group, when it was last seen.
#include "rules/findings.h"

#include <algorithm>

namespace rules {
namespace {

using Texts = std::optional<std::vector<std::string>>;

// A field that is not given asks for nothing; what is not stated does not match.
bool matchesOne(const Texts& wanted, std::string_view stated) {
    if (!wanted) return true;
    return !stated.empty() && std::find(wanted->begin(), wanted->end(), stated) != wanted->end();
}

bool matchesPart(const logbook::body::Match& match, const std::string& position,
                 const PartAttributes& part) {
    return (!match.position || *match.position == position) &&
           matchesOne(match.lots, part.text("lot")) &&
           matchesOne(match.serials, part.serial()) &&
           matchesOne(match.partModels, part.text("model"));
}

bool hasPartFields(const logbook::body::Match& match) {
    return match.position || match.lots || match.serials || match.partModels;
}

// Carried out on this device after the notice and after each matching part was put in.
bool stands(const FindingContext& context, const KnownNotice& known) {
    const auto& match = known.notice.match;
    const Device& device = context.device;
    if (known.notice.cancelled) return false;
    if (!matchesOne(match.devices, device.serial)) return false;
    if (!matchesOne(match.deviceModels, device.enrolment.model)) return false;
    if (!matchesOne(match.software, device.software)) return false;
    const auto done = device.noticesDone.find(known.notice.key);
    const bool everDone = done != device.noticesDone.end() && done->second > known.record;
    if (!hasPartFields(match)) return !everDone;
    return std::any_of(device.fitted.begin(), device.fitted.end(), [&](const auto& fitted) {
        const auto& [position, part] = fitted;
        if (!context.rulebook.position(position)) return false;
        if (!matchesPart(match, position, part.attributes)) return false;
        return !everDone || part.fit > done->second;
    });
}

void addGroupFindings(const FindingContext& context, std::vector<Finding>& findings) {
    const auto& group = context.group;
    if (!group) {
        findings.push_back(resting(FindingCode::GroupUnset, "", std::nullopt));
        return;
    }
    const auto& supported = context.device.enrolment.groups;
    if (std::find(supported.begin(), supported.end(), *group) == supported.end()) {
        findings.push_back(resting(FindingCode::GroupUnsupported, *group, std::nullopt));
    }
    if (context.selected != group) {
        findings.push_back(resting(FindingCode::GroupDiffers, *group, std::nullopt));
    }
}

void addUnseen(const FindingContext& context, std::vector<Finding>& findings) {
    const auto& every = context.rulebook.confirmEvery;
    const auto& last = context.device.last;
    if (!every || !last || context.at < last->at + *every) return;
    Finding finding = resting(FindingCode::Unseen, "", last, last->at + *every);
    finding.blocks = Blocks::No;
    findings.push_back(std::move(finding));
}

bool faultBlocks(const Rulebook& rulebook, const std::string& code, const StandingFault& fault) {
    const FaultRule* rule = rulebook.fault(code);
    return rule ? rule->blocking.value_or(true) : fault.blocking.value_or(true);
}

}  // namespace

Finding resting(FindingCode code, std::string subject, const std::optional<RecordRef>& record,
                std::optional<Instant> brought) {
    Finding finding;
    finding.code = code;
    finding.subject = std::move(subject);
    finding.record = record;
    finding.since = brought;
    if (record && (!brought || record->at > *brought)) finding.since = record->at;
    return finding;
}

void addDeviceFindings(const FindingContext& context, std::vector<Finding>& findings) {
    for (const auto& [hold, standing] : context.device.holds) {
        findings.push_back(resting(FindingCode::Withdrawn, hold, standing.record));
    }
    for (const auto& [code, standing] : context.device.faults) {
        Finding finding = resting(FindingCode::Fault, code, standing.record);
        if (!faultBlocks(context.rulebook, code, standing)) finding.blocks = Blocks::No;
        findings.push_back(std::move(finding));
    }
    for (const auto& [key, known] : context.state.notices) {
        if (!stands(context, known)) continue;
        Finding finding = resting(FindingCode::Notice, key, known.record);
        if (known.notice.action != logbook::NoticeAction::StopUse) finding.blocks = Blocks::No;
        findings.push_back(std::move(finding));
    }
    addGroupFindings(context, findings);
    addUnseen(context, findings);
}

}  // namespace rules
