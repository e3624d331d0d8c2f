// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The horizon as text for who begins a shift: ready against par, what lapses when and why, and the
// work that keeps par, unit by unit.
#include "report/horizon.h"

#include "report/later_doubt.h"
#include "words/finding_words.h"
#include "words/record_words.h"
#include "words/shown.h"

#include <algorithm>
#include <numeric>

namespace report {

namespace {

using words::Context;

std::string placeOf(const Context& context) {
    const auto& place = context.device->location;
    return place.empty() ? context.words.say("horizon.no_place") : words::shown(place);
}

std::string groupLine(const Context& context, const rules::GroupHorizon& group, Instant from) {
    words::Gaps gaps{{"ready", std::to_string(group.ready)},
                     {"par", std::to_string(group.par)},
                     {"least", std::to_string(group.least)},
                     {"short", std::to_string(group.par - group.ready)}};
    if (!group.belowFrom) return context.words.say("horizon.stays", gaps);
    if (*group.belowFrom <= from) return context.words.say("horizon.short", gaps);
    gaps["time"] = context.times().time(*group.belowFrom);
    return context.words.say("horizon.falls", gaps);
}

void addPar(Outline& outline, const Horizon& horizon, const Context& context) {
    Table table({context.words.say("board.par_heading"), ""});
    for (const auto& group : horizon.found.groups)
        table.add({words::groupLabel(context, group.group),
                   groupLine(context, group, horizon.found.from)});
    outline.gap();
    outline.table(std::move(table));
}

void addLapses(Outline& outline, const Horizon& horizon, const words::Words& words) {
    const auto plain = horizon.context(words);
    outline.gap();
    outline.heading(words.say("horizon.lapses"));
    if (horizon.found.lapses.empty()) {
        outline.paragraph(words.say("horizon.no_lapses",
                                    {{"time", plain.times().time(horizon.found.to)}}),
                          2);
        return;
    }
    Table table({words.say("horizon.at"), words.say("horizon.unit"), words.say("horizon.place"),
                 words.say("horizon.group"), words.say("horizon.why")});
    for (const auto& lapse : horizon.found.lapses) {
        const auto context = horizon.context(words, lapse.device);
        std::string why;
        for (const auto& finding : lapse.findings)
            why += (why.empty() ? "" : "; ") + words::brief(context, finding);
        table.add({context.times().inTable(lapse.at), words::shown(lapse.device), placeOf(context),
                   lapse.group ? words::groupLabel(context, *lapse.group) : "", why});
    }
    outline.table(std::move(table), 2);
}

std::string busyText(const Context& context, const rules::Task& task) {
    auto text = words::duration(context.words, task.attended - task.start);
    const auto alone = task.finish - task.attended;
    if (alone.ms > 0) text += "; " + words::unattended(context.words, alone);
    return text;
}

struct UnitSession {
    const std::string& device;
    const rules::Session& session;
};

// All sessions of a group's remedies, as one after the other they have to begin.
std::vector<UnitSession> sessionsInOrder(const rules::GroupHorizon& group) {
    std::vector<UnitSession> sessions;
    for (const auto& remedy : group.remedies)
        for (const auto& session : remedy.sessions) sessions.push_back({remedy.device, session});
    std::vector<std::size_t> order(sessions.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&sessions](std::size_t a, std::size_t b) {
        return sessions[a].session.begin < sessions[b].session.begin;
    });
    std::vector<UnitSession> sorted;
    for (const auto index : order) sorted.push_back(sessions[index]);
    return sorted;
}

// A row a step; what is the same for all steps of a unit stands beside the first.
void addSession(Table& table, const Context& context, const rules::Session& session) {
    const auto times = context.times();
    for (const auto& task : session.tasks) {
        const bool isFirst = &task == &session.tasks.front();
        const bool isNow = session.begin <= context.asked;
        const auto begin = isNow ? context.words.say("horizon.now") : times.inTable(session.begin);
        // Work begun now is done after that minute began; later work has to be done before it.
        const auto by = times.inTable(isNow ? words::wholeMinute(session.by) : session.by);
        table.add({isFirst ? begin : "", isFirst ? by : "",
                   isFirst ? words::shown(context.device->serial) : "",
                   isFirst ? placeOf(context) : "",
                   words::task(context, rules::name(task.kind), task.subject, task.samePart),
                   busyText(context, task)});
    }
}

void addRemedies(Outline& outline, const Horizon& horizon, const words::Words& words,
                 const rules::GroupHorizon& group) {
    if (group.remedies.empty()) return;
    Table table({words.say("horizon.begin"), words.say("horizon.done"), words.say("horizon.unit"),
                 words.say("horizon.place"), words.say("horizon.step"), words.say("horizon.busy")});
    for (const auto& each : sessionsInOrder(group))
        addSession(table, horizon.context(words, each.device), each.session);
    outline.table(std::move(table), 4);
}

// How far the work goes towards par.
std::string resultText(const Context& context, const rules::GroupHorizon& group, Instant from) {
    const auto& words = context.words;
    std::string text;
    if (group.heldFrom) {
        const words::Gaps gaps{{"time", context.times().time(words::wholeMinute(*group.heldFrom))}};
        text = words.say(*group.heldFrom <= from ? "horizon.held_all" : "horizon.held_from", gaps);
    } else {
        text = words.say("horizon.lacking", {{"time", context.times().time(*group.shortFrom)},
                                             {"count", std::to_string(group.lacking)}});
    }
    if (group.heldFrom || group.beyond.empty()) return text;
    std::vector<std::string> units;
    for (const auto& unit : group.beyond) units.push_back(words::shown(unit));
    return text + " " + words.say("horizon.beyond", {{"units", words.all(units)}});
}

void addWork(Outline& outline, const Horizon& horizon, const words::Words& words) {
    const auto plain = horizon.context(words);
    outline.gap();
    outline.heading(words.say("horizon.work"));
    bool any = false;
    for (const auto& group : horizon.found.groups) {
        if (!group.belowFrom) continue;
        Duration attended;
        for (const auto& remedy : group.remedies) attended.ms += remedy.attended.ms;
        const words::Gaps gaps{{"group", words::groupLabel(plain, group.group)},
                               {"count", std::to_string(group.remedies.size())},
                               {"duration", words::duration(words, attended)}};
        const auto key = group.remedies.empty() ? "horizon.group_none" : "horizon.group_work";
        const auto result = resultText(plain, group, horizon.found.from);
        if (any) outline.gap();
        outline.paragraph(words.say(key, gaps) + " " + result, 2);
        addRemedies(outline, horizon, words, group);
        any = true;
    }
    if (!any) outline.paragraph(words.say("horizon.no_work"), 2);
}

}  // namespace

Outline outlineOf(const Horizon& horizon, const words::Words& words) {
    const auto context = horizon.context(words);
    Outline outline;
    outline.paragraph(
        words.say("horizon.title", {{"from", context.times().time(horizon.found.from)},
                                    {"to", context.times().time(horizon.found.to)},
                                    {"duration", words::duration(words, horizon.ahead)}}));
    outline.gap();
    outline.head(context, horizon.provenance);
    if (horizon.inDoubt()) {
        outline.gap();
        outline.paragraph(words.say(
            isDoubtByClock(horizon.provenance) ? "horizon.later_entries" : "horizon.doubt"));
    } else {
        addPar(outline, horizon, context);
        addLapses(outline, horizon, words);
        addWork(outline, horizon, words);
    }
    outline.caution(words);
    return outline;
}

std::string toText(const Horizon& horizon, const words::Words& words, const TextOptions& options) {
    return outlineOf(horizon, words).text(usableWidth(options));
}

}  // namespace report
