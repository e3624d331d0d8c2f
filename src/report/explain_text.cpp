// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit as text: who it is and its verdict first, then why, then its state in tables.
#include "report/explain_parts.h"
#include "report/later_doubt.h"
#include "rules/evaluate.h"
#include "rules/people.h"
#include "words/finding_words.h"
#include "words/record_remarks.h"
#include "words/record_words.h"
#include "words/shown.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace report {

namespace {

using words::Context;

void addHeading(Outline& page, std::string title) {
    page.gap();
    page.heading(std::move(title));
}

// A table below its title.
void addTable(Outline& page, const Context& context, std::string_view title, Table table) {
    addHeading(page, context.words.say(title));
    page.table(std::move(table), 2);
}

std::string doerText(const Context& context, const logbook::RecordName& name) {
    const auto* record = context.record(name);
    if (!record) return context.words.say("plain.unknown");
    return words::personName(context, words::doerOf(*record));
}

std::string mark(const Context& context, const rules::Finding& finding) {
    if (finding.waivedUntil) return "[" + context.words.say("plain.permitted") + "] ";
    switch (finding.blocks) {
        case rules::Blocks::No: return "[" + context.words.say("plain.advisory") + "] ";
        case rules::Blocks::Start: return "[" + context.words.say("plain.at_start") + "] ";
        case rules::Blocks::Yes: break;
    }
    return "";
}

std::string restsOn(const Context& context, const rules::RecordRef& reference,
                    const Marks& marks) {
    const auto* record = context.record(reference.name);
    const auto line =
        record ? words::recordLine(context, *record) : context.words.say("plain.unknown");
    const auto text =
        context.words.say("explain.rests_on", {{"record", logbook::toText(reference.name)},
                                               {"line", line},
                                               {"person", doerText(context, reference.name)},
                                               {"time", context.times().time(reference.at)}});
    const auto mark = marks.find(reference.name);
    return mark == marks.end() ? text : text + "; " + mark->second;
}

void addFinding(Outline& page, const Context& context, const rules::Finding& finding,
                const FindingsTitle& title) {
    const auto& marks = title.marks;
    const auto sentence = words::sentence(context, finding);
    page.paragraph(mark(context, finding) + (title.advises ? sentence.text() : sentence.says), 2);
    if (finding.discounted) {
        page.paragraph(restsOn(context, finding.discounted->record, marks), 6);
        const auto ground = words::groundSentence(context, finding).says;
        page.paragraph(context.words.say("explain.earlier_ground", {{"sentence", ground}}), 6);
    }
    if (finding.record) page.paragraph(restsOn(context, *finding.record, marks), 6);
}

void addChecks(Outline& page, const Context& context, const BoardRow& row) {
    const auto& words = context.words;
    Table table({words.say("explain.check"), words.say("explain.status"), words.say("explain.when"),
                 words.say("explain.who")});
    for (const auto& [key, status] : row.assessment.checks) {
        const auto state = context.device->checks.find(key);
        const bool done = state != context.device->checks.end() && state->second.last;
        table.add({words::checkLabel(context, key), words::statusWord(words, status),
                   done ? context.times().inTable(state->second.last->at)
                        : words.say("plain.never"),
                   done ? doerText(context, state->second.last->name) : ""});
    }
    addTable(page, context, "explain.checks", std::move(table));
}

std::string partName(const Context& context, const rules::PartAttributes& part) {
    std::vector<std::string> names;
    if (!part.serial().empty()) names.push_back(words::shown(part.serial()));
    if (!part.text("lot").empty())
        names.push_back(
            context.words.say("explain.part_lot", {{"lot", std::string(part.text("lot"))}}));
    if (!part.text("model").empty()) names.push_back(words::shown(part.text("model")));
    std::string text;
    for (const auto& name : names) text += (text.empty() ? "" : ", ") + name;
    return text;
}

std::string lifeText(const Context& context, const rules::Position& position,
                     const rules::FittedPart& part) {
    const auto& words = context.words;
    const auto& life = context.state.life(part, position.key);
    std::string text = words.say("explain.not_used");
    if (life.used) {
        const bool reusable = rules::reuseOf(part.attributes, position) == logbook::Reuse::Reusable;
        text =
            words.say(reusable && !context.device->use ? "plain.needs_reprocessing" : "plain.used");
    }
    if (life.cycles > 0)
        text += ", " + words.say("explain.cycles", {{"count", std::to_string(life.cycles)}});
    return text;
}

void addSetup(Outline& page, const Context& context) {
    const auto& words = context.words;
    Table table({words.say("explain.position"), words.say("explain.part"),
                 words.say("explain.fitted"), words.say("explain.expires"),
                 words.say("explain.life")});
    for (const auto& position : context.state.rulebook->positions) {
        const auto label = words::positionLabel(context, position.key);
        const auto* part = context.fitted(position.key);
        if (!part) {
            table.add({label, words.say("explain.empty"), "", "", ""});
            continue;
        }
        const auto& expires = part->attributes.expires;
        table.add({label, partName(context, part->attributes),
                   context.times().inTable(part->fit.at),
                   expires ? context.times().day(*expires) : "",
                   lifeText(context, position, *part)});
    }
    addTable(page, context, "explain.setup", std::move(table));
}

std::string dueBy(const Context& context, const rules::Service& service,
                  const std::optional<rules::RecordRef>& lastPass) {
    if (!service.every) return context.words.say("explain.on_demand");
    const auto from = lastPass ? context.state.rulebook->zone->dayOf(lastPass->at)
                               : context.device->enrolment.commissioned;
    return context.times().day(logbook::plus(from, *service.every));
}

void addServices(Outline& page, const Context& context) {
    const auto& words = context.words;
    Table table({words.say("explain.service"), words.say("explain.last_pass"),
                 words.say("explain.due_by")});
    for (const auto& service : context.state.rulebook->services) {
        if (!rules::applies(service, *context.device, *context.state.rulebook)) continue;
        const auto state = context.device->services.find(service.key);
        std::optional<rules::RecordRef> lastPass;
        if (state != context.device->services.end()) lastPass = state->second.lastPass;
        table.add({words::serviceLabel(context, service.key),
                   lastPass ? context.times().inTable(lastPass->at) : words.say("plain.never"),
                   dueBy(context, service, lastPass)});
    }
    if (!table.isEmpty()) addTable(page, context, "explain.services", std::move(table));
}

void addStanding(Outline& page, const Context& context, std::string_view title,
                 const std::vector<rules::RecordRef>& records) {
    bool isTitled = false;
    for (const auto& reference : records) {
        const auto* record = context.record(reference.name);
        if (!record) continue;
        if (!std::exchange(isTitled, true)) addHeading(page, context.words.say(title));
        page.paragraph(context.words.say("explain.standing",
                                         {{"line", words::recordLine(context, *record)},
                                          {"person", doerText(context, reference.name)},
                                          {"time", context.times().time(record->at)}}),
                       2);
    }
}

void addHolds(Outline& page, const Context& context) {
    std::vector<rules::RecordRef> standing, waivers;
    for (const auto& [key, hold] : context.device->holds) standing.push_back(hold.record);
    for (const auto& [key, fault] : context.device->faults) standing.push_back(fault.record);
    for (const auto& [key, waiver] : context.device->waivers)
        if (waiver.until > context.asked) waivers.push_back(waiver.record);
    addStanding(page, context, "explain.holds", standing);
    addStanding(page, context, "explain.waivers", waivers);
}

}  // namespace

std::string placeText(const Context& context, const std::optional<Instant>& unsaidSince) {
    const auto& place = context.device->location;
    if (place.empty()) return context.words.say("explain.no_place");
    if (!unsaidSince) return words::shown(place);
    return context.words.say("explain.place_unsaid",
                             {{"time", context.times().time(*unsaidSince)}, {"place", place}});
}

std::string identity(const Context& context, const std::optional<Instant>& unsaidSince) {
    const auto& words = context.words;
    const auto& device = *context.device;
    const auto& enrolment = device.enrolment;
    std::string bar = words.say("explain.title", {{"device", device.serial}});
    const auto add = [&bar](const std::string& text) { bar += " | " + text; };
    if (enrolment.label) add(words::shown(*enrolment.label));
    if (enrolment.asset) add(words.say("explain.asset", {{"asset", *enrolment.asset}}));
    add(words.say("explain.model", {{"model", enrolment.model}}));
    const auto place = placeText(context, unsaidSince);
    const bool isKnown = !device.location.empty() && !unsaidSince;
    add(isKnown ? words.say("explain.place", {{"place", place}}) : place);
    const auto group = device.group();
    add(group ? words.say("explain.group", {{"group", words::groupLabel(context, *group)}})
              : words.say("explain.no_group"));
    return bar;
}

std::string verdictText(const Context& context, const BoardRow& row) {
    const auto& words = context.words;
    const auto& found = row.assessment;
    const bool unknown = row.inDoubt && found.verdict == rules::Verdict::NotReady;
    auto verdict =
        unknown ? words.say("verdict.not_known") : words::verdictWord(words, found.verdict);
    if (found.inUse && found.verdict == rules::Verdict::Withdrawn)
        verdict += ", " + words::verdictWord(words, rules::Verdict::InUse);
    if (found.paused) verdict += ", " + words.say("plain.paused");
    if (!found.group || found.verdict == rules::Verdict::Retired) return verdict;
    return words.say("explain.verdict_of",
                     {{"verdict", verdict}, {"group", words::groupLabel(context, *found.group)}});
}

void addFindings(Outline& page, const Context& context, const BoardRow& row,
                 const FindingsTitle& title) {
    addHeading(page, title.title);
    if (row.inDoubt)
        page.paragraph(context.words.say(title.isClockWrong ? "board.later_sentence"
                                                            : "board.doubt_sentence"),
                       2);
    auto findings = row.assessment.findings;
    // A hold that says what not to do comes first, then what blocks; among equals the order stays.
    const auto weight = [&context](const rules::Finding& finding) {
        if (words::isSheetHold(context, rules::toText(finding))) return 0;
        return finding.blocking() == rules::Blocks::Yes ? 1 : 2;
    };
    std::stable_sort(findings.begin(), findings.end(), [&weight](const auto& a, const auto& b) {
        return weight(a) < weight(b);
    });
    const bool onHold = title.advises && words::sheetHoldStands(context);
    bool toldToLeave = false;
    for (const auto& finding : findings) {
        const bool advises = title.advises && (!onHold || weight(finding) == 0);
        // What not to do is said once for all that stands besides the hold.
        if (onHold && !advises && !toldToLeave) {
            page.paragraph(context.words.say("explain.on_hold"), 2);
            toldToLeave = true;
        }
        addFinding(page, context, finding, {title.title, title.marks, advises});
    }
    if (findings.empty() && !row.inDoubt)
        page.paragraph(context.words.say("explain.no_findings"), 2);
}

void addState(Outline& page, const Context& context, const BoardRow& row) {
    if (row.assessment.verdict == rules::Verdict::Retired) return;
    addChecks(page, context, row);
    addSetup(page, context);
    addServices(page, context);
    addHolds(page, context);
}

// Entries of which whoever they stand under says that they are not theirs. It is said later and on
// the same unit, so it is among the last entries if what it is about is.
std::set<logbook::RecordName> deniedAmong(const Context& context, const Explain& explain) {
    std::map<logbook::RecordName, std::string> deniers;
    std::set<logbook::RecordName> denied;
    for (const auto& [record, struck] : explain.recent) {
        const auto* review = std::get_if<logbook::body::Review>(&record.body);
        const bool counts = review && !struck && record.confirmed;
        if (counts && review->disposition == rules::notMineWord)
            deniers.try_emplace(review->target, record.by);
    }
    for (const auto& [record, struck] : explain.recent) {
        const auto denier = deniers.find(record.name);
        const bool isOpen = !record.confirmed && context.confirmation(record.name) == nullptr;
        if (isOpen && denier != deniers.end() && denier->second == record.by)
            denied.insert(record.name);
    }
    return denied;
}

void addRecords(Outline& page, const Context& context, const Explain& explain,
                const Marks& marks) {
    if (explain.recent.empty()) return;
    const auto denied = deniedAmong(context, explain);
    const auto& words = context.words;
    Table table({words.say("explain.record"), words.say("explain.at"), words.say("explain.who"),
                 words.say("explain.what")});
    for (const auto& [record, struck] : explain.recent) {
        auto line = words::recordLine(context, record);
        const auto mark = marks.find(record.name);
        if (struck && mark == marks.end())
            line = words.say("explain.struck",
                             {{"line", line}, {"word", words.say("plain.struck_through")}});
        if (mark != marks.end()) line += "; " + mark->second;
        const auto& doer = words::doerOf(record);
        table.add({logbook::toText(record.name), context.times().inTable(record.at),
                   denied.contains(record.name) ? words::deniedBy(context, doer)
                                                : words::personName(context, doer),
                   line});
    }
    addTable(page, context, "explain.records", std::move(table));
}

std::string toText(const Explain& explain, const words::Words& words, const TextOptions& options) {
    const auto context = explain.context(words);
    const auto& row = explain.row();
    Outline page;
    page.paragraph(identity(context, explain.placeUnsaidSince));
    page.paragraph(words.say("explain.verdict", {{"verdict", verdictText(context, row)}}));
    if (row.assessment.readyUntil)
        page.paragraph(words.say("explain.ready_until",
                                 {{"time", context.times().time(*row.assessment.readyUntil)}}));
    page.gap();
    page.head(context, explain.board.provenance, explain.board.groupAsked);
    const Marks none;
    if (row.assessment.verdict != rules::Verdict::Retired)
        addFindings(page, context, row,
                    {words.say("explain.findings"), none, true,
                     isDoubtByClock(explain.board.provenance)});
    addState(page, context, row);
    addRecords(page, context, explain, none);
    page.caution(words);
    return page.text(usableWidth(options));
}

}  // namespace report
