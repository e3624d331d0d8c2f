// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit for the Bedside desk: identity, headline and what the rest is put together from; see
// bedside.h.
#include "report/bedside.h"

#include "report/later_doubt.h"
#include "report/bedside_rows.h"
#include "report/blockers.h"
#include "report/explain_parts.h"
#include "report/gravity.h"
#include "report/resume_row.h"
#include "words/bedside_words.h"
#include "words/finding_words.h"
#include "words/lifters.h"
#include "words/permission.h"
#include "words/record_words.h"
#include "words/shown.h"

#include <algorithm>

namespace report {

namespace {

using words::Context;

std::string shownOr(const std::optional<std::string>& text) {
    return text ? words::shown(*text) : "";
}

HoldSheet sheetOf(const Context& context, const rules::Hold& hold,
                  const rules::StandingHold& standing) {
    HoldSheet sheet;
    sheet.hold = hold.key;
    sheet.label = words::holdLabel(context, hold.key);
    sheet.since = context.times().dated(standing.record.at);
    const auto* record = context.record(standing.record.name);
    sheet.by = record ? words::personName(context, record->by) : context.words.say("plain.unknown");
    for (const auto& line : hold.sheet) sheet.lines.push_back(context.words.label(line, ""));
    sheet.lifters = words::lifters(context, "withdrawn " + hold.key);
    return sheet;
}

void addGroups(BedsideIdentity& identity, const Context& context, const BoardRow& row) {
    identity.group = context.device->group();
    identity.groupText = identity.group ? words::groupLabel(context, *identity.group)
                                        : context.words.say("bedside.no_group");
    const auto& asked = row.assessment.group;
    if (!asked || asked == identity.group) return;
    identity.groupAsked = asked;
    identity.groupAskedText = words::groupLabel(context, *asked);
}

void addVerdict(BedsideIdentity& identity, const Context& context, const BoardRow& row) {
    const auto& words = context.words;
    const auto& found = row.assessment;
    const bool unknown = row.inDoubt && found.verdict == rules::Verdict::NotReady;
    identity.verdict = found.verdict;
    identity.verdictWord =
        unknown ? words.say("verdict.not_known") : words::verdictWord(words, found.verdict);
    if (found.inUse && found.verdict == rules::Verdict::Withdrawn)
        identity.verdictWord += ", " + words::verdictWord(words, rules::Verdict::InUse);
    if (found.paused) identity.verdictWord += ", " + words.say("plain.paused");
    identity.verdictText = verdictText(context, row);
    identity.inUse = found.inUse;
    identity.paused = found.paused;
    if (context.device->use) identity.inUseSince = context.device->use->start.at;
    identity.readyUntil = found.readyUntil;
    if (found.readyUntil)
        identity.readyUntilText = words.say(
            "explain.ready_until", {{"time", context.times().time(*found.readyUntil)}});
    if (const auto permitted = words::permission(context, found); !permitted.empty()) {
        identity.verdictWord += ", " + words.say("standing.by_permission");
        identity.readyUntilText =
            permitted + (identity.readyUntilText.empty() ? "" : " " + identity.readyUntilText);
    }
    identity.inDoubt = row.inDoubt;
}

BedsideIdentity identityOf(const Context& context, const BoardRow& row,
                           const std::optional<Instant>& unsaidSince) {
    const auto& device = *context.device;
    const auto& enrolment = device.enrolment;
    BedsideIdentity identity;
    identity.device = device.serial;
    identity.serial = words::shown(device.serial);
    identity.asset = shownOr(enrolment.asset);
    identity.label = shownOr(enrolment.label);
    identity.model = words::shown(enrolment.model);
    identity.place = placeText(context, unsaidSince);
    if (!device.location.empty() && !unsaidSince) identity.location = device.location;
    identity.isOn = device.poweredSince.has_value();
    addGroups(identity, context, row);
    addVerdict(identity, context, row);
    identity.sheets = holdSheets(context);
    return identity;
}

// A unit that is ready may still lack what is done when it stands by the patient.
std::string readyNow(const Context& context, const rules::Assessment& found) {
    std::vector<std::string> checks;
    for (const auto& key : checksInOrder(*context.state.rulebook))
        for (const auto& finding : found.findings)
            if (finding.blocking() == rules::Blocks::Start && finding.subject == key)
                checks.push_back(context.words.inside(words::subjectLabel(context, finding)));
    if (checks.empty()) return context.words.say("bedside.ready_now");
    return context.words.say("bedside.ready_but_start", {{"checks", context.words.all(checks)}});
}

// Where only the order cannot be worked out, a part is still to be fitted and what it is like to be
// recorded: that leads on.
bool leadsOn(const rules::Plan& plan) {
    return !plan.blockers.empty() &&
           std::all_of(plan.blockers.begin(), plan.blockers.end(),
                       [](const auto& blocker) { return blocker.starts_with("closing_fit "); });
}

std::string headlineOf(const Context& context, const WayToReady& way, bool standsMore) {
    const auto& words = context.words;
    const auto& found = way.board.rows.front().assessment;
    if (found.verdict == rules::Verdict::Retired) return words::blocker(context, "retired").says;
    if (found.inUse && found.verdict == rules::Verdict::Withdrawn)
        return words.say("bedside.in_use_withdrawn");
    if (found.inUse) return words.say(standsMore ? "bedside.in_use_lacking" : "bedside.in_use");
    const auto& plan = way.plan;
    if (!plan.readyAt)
        return words.say(leadsOn(plan) ? "bedside.order_unknown" : "bedside.blocked");
    if (!plan.runsOut.empty())
        return words.say("plan.done_not_ready",
                         {{"time", context.times().time(words::wholeMinute(*plan.readyAt))}});
    if (plan.tasks.empty() && found.verdict == rules::Verdict::Ready) {
        const auto permitted = words::permission(context, found);
        return readyNow(context, found) + (permitted.empty() ? "" : " " + permitted);
    }
    return words::readyLine(context, *plan.readyAt);
}

std::string notProved(const Context& context, const rules::Plan& plan) {
    if (!plan.readyAt || plan.exact) return "";
    return context.words.say("plan.not_proved", {{"count", std::to_string(plan.tasks.size())},
                                                 {"most", std::to_string(rules::exactTasks)}});
}

std::optional<std::size_t> nextOf(const std::vector<BedsideRow>& rows, const rules::Plan& plan) {
    const auto isNext = [fits = leadsOn(plan)](const BedsideRow& row) {
        if (row.part == RowPart::Step) return true;
        return fits && row.part == RowPart::Finding && std::holds_alternative<FitToLog>(row.act);
    };
    const auto next = std::find_if(rows.begin(), rows.end(), isNext);
    if (next == rows.end()) return std::nullopt;
    return static_cast<std::size_t>(next - rows.begin());
}

void addPutBack(const Context& context, const std::map<std::string, TakenOut>& takenOut,
                SetupPosition& position) {
    const auto taken = takenOut.find(position.key);
    if (position.fitted || !position.named || taken == takenOut.end()) return;
    position.putBack =
        putBackProposal(context, position.key, taken->second.attributes, taken->second.fitted);
}

// That a paused use goes on stands against nothing.
bool isOpen(const BedsideRow& row) {
    return row.part != RowPart::Done && row.key != resumeRow;
}

}  // namespace

std::optional<Bedside> makeBedside(rules::State state, words::RecordLookup lookup,
                                   const BedsideQuestion& question, Provenance provenance,
                                   const words::Words& words) {
    const auto knownAt = provenance.knownAt;
    const auto way = makeWayToReady(state.excerpt({question.unit.device}), std::move(lookup),
                                    question.unit, std::move(provenance));
    if (!way) return std::nullopt;
    const auto context = way->context(words);
    const auto& row = way->board.rows.front();
    Bedside bedside;
    bedside.identity = identityOf(context, row, question.placeUnsaidSince);
    if (row.inDoubt)
        bedside.identity.doubtText =
            words.say(isDoubtByClock(way->board.provenance) ? "board.later_sentence"
                                                          : "board.doubt_sentence");
    bedside.rows = makeRows({context, *way, question.takenOut});
    bedside.next = nextOf(bedside.rows, way->plan);
    const bool standsMore = std::any_of(bedside.rows.begin(), bedside.rows.end(), isOpen);
    bedside.headline = headlineOf(context, *way, standsMore);
    bedside.readyAt = way->plan.readyAt;
    for (const auto& finding : way->plan.runsOut)
        bedside.runsOut.push_back(words::capitalized(
            words::brief(context, findingNamed(row.assessment, finding))));
    bedside.notProved = notProved(context, way->plan);
    bedside.setup = makeSetup(context, row.assessment);
    for (auto& position : bedside.setup) addPutBack(context, question.takenOut, position);
    bedside.asked = question.unit.asked;
    bedside.knownAt = knownAt;
    bedside.zone = state.rulebook->zone;
    bedside.edition = words::shown(state.rulebook->edition);
    return bedside;
}

std::string countdown(const words::Words& words, const rules::Zone& zone, Instant instant,
                      Instant now) {
    return words::startsAt(words, words::Times(words, zone, now), instant);
}

std::vector<HoldSheet> holdSheets(const Context& context) {
    std::vector<HoldSheet> sheets;
    for (const auto& [key, standing] : context.device->holds) {
        const auto* hold = context.state.rulebook->hold(key);
        if (hold && !hold->sheet.empty()) sheets.push_back(sheetOf(context, *hold, standing));
    }
    return sheets;
}

bool disturbsEvidence(logbook::Kind kind) {
    using logbook::Kind;
    switch (kind) {
        case Kind::Fit:
        case Kind::Remove:
        case Kind::Reprocess:
        case Kind::Check:
        case Kind::Power:
        case Kind::Software:
        case Kind::Service:
        case Kind::UseStart: return true;
        default: return false;
    }
}

bool isAskedForHold(std::string_view kind, const logbook::json::Object& body) {
    const auto known = logbook::kindOf(kind);
    const auto isEmergency = [](const auto& member) {
        return member.first == "emergency" && member.second == logbook::json::Value(true);
    };
    return known && disturbsEvidence(*known) && std::ranges::none_of(body, isEmergency);
}

}  // namespace report
