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

// The `notice_done` of this notice as it now reads; none if that came before it.
std::optional<RecordRef> doneSince(const Device& device, const KnownNotice& known) {
    const auto done = device.noticesDone.find(known.notice.key);
    if (done == device.noticesDone.end() || done->second < known.record) return std::nullopt;
    return done->second;
}

bool stands(const FindingContext& context, const KnownNotice& known) {
    return standsOnDevice(context, known) || !positionsUnder(context, known).empty();
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

bool namesPart(const logbook::body::Match& match) {
    return match.position || match.lots || match.serials || match.partModels;
}

bool noticeMatchesPart(const logbook::body::Match& match, const std::string& position,
                       const PartAttributes& part) {
    return (!match.position || *match.position == position) &&
           matchesOne(match.lots, part.text("lot")) && matchesOne(match.serials, part.serial()) &&
           matchesOne(match.partModels, part.text("model"));
}

bool noticeConcerns(const Device& device, const logbook::body::Notice& notice) {
    const auto& match = notice.match;
    return !notice.cancelled && matchesOne(match.devices, device.serial) &&
           matchesOne(match.deviceModels, device.enrolment.model) &&
           matchesOne(match.software, device.software);
}

bool standsOnDevice(const FindingContext& context, const KnownNotice& known) {
    return !namesPart(known.notice.match) && noticeConcerns(context.device, known.notice) &&
           !doneSince(context.device, known);
}

std::vector<std::string> positionsUnder(const FindingContext& context, const KnownNotice& known) {
    std::vector<std::string> positions;
    const auto& match = known.notice.match;
    if (!namesPart(match) || !noticeConcerns(context.device, known.notice)) return positions;
    const auto done = doneSince(context.device, known);
    for (const auto& [position, part] : context.device.fitted) {
        if (!context.rulebook.position(position)) continue;
        if (!noticeMatchesPart(match, position, part.attributes)) continue;
        if (!done || part.fit > *done) positions.push_back(position);
    }
    return positions;
}

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
