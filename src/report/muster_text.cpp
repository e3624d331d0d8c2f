// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The muster as text: the answer first, then the units in the order in which they are ready, then
// what each person does; at last what keeps the others, if they are too few.
#include "report/blockers.h"

#include "report/later_doubt.h"
#include "report/muster.h"
#include "words/finding_words.h"
#include "words/lifters.h"
#include "words/record_words.h"
#include "words/shown.h"

#include <algorithm>
#include <map>
#include <set>

namespace report {

namespace {

using words::Context;

// What all pieces of the text share.
struct Page {
    const Muster& muster;
    const words::Words& words;
    Context context;  // of no unit
    Outline outline{};

    [[nodiscard]] const rules::Muster& answer() const { return muster.answer; }
    [[nodiscard]] std::string say(std::string_view key, words::Gaps gaps = {}) const {
        const auto& question = answer().question;
        gaps["units"] = units(question.units);
        gaps["people"] = people(question.people);
        gaps["group"] = words::groupLabel(context, question.group);
        gaps["time"] = gaps.contains("time") ? gaps["time"] : from(answer().finish);
        return words.say("muster." + std::string(key), gaps);
    }
    [[nodiscard]] std::string units(std::size_t count) const {
        if (count == 1) return words.say("muster.units_one");
        return words.say("muster.units_many", {{"count", std::to_string(count)}});
    }
    [[nodiscard]] std::string people(std::size_t count) const {
        if (count == 1) return words.say("muster.people_one");
        return words.say("muster.people_many", {{"count", std::to_string(count)}});
    }
    [[nodiscard]] std::string time(Instant instant) const { return context.times().time(instant); }
    // What is to come: nothing is said to be ready, or to be begun, before its minute.
    [[nodiscard]] Instant begun(Instant instant) const {
        return instant <= context.asked ? instant : words::wholeMinute(instant);
    }
    [[nodiscard]] std::string from(Instant instant) const { return time(begun(instant)); }
    [[nodiscard]] std::string cell(Instant instant) const {
        return context.times().inTable(begun(instant));
    }
    [[nodiscard]] std::string waitUntil(Instant instant) const {
        return words::wait(words, instant - context.asked);
    }
    // As the clock shows them: "5 min"; less than a minute in seconds.
    [[nodiscard]] std::string between(Instant early, Instant late) const {
        const auto shown = words::wholeMinute(late) - words::wholeMinute(early);
        return words::duration(words, shown.ms > 0 ? shown : late - early);
    }
    [[nodiscard]] std::string placeOf(const std::string& device) const {
        const auto& place = muster.board.state.device(device)->location;
        return place.empty() ? words.say("horizon.no_place") : words::shown(place);
    }
};

void addAnswer(Page& page) {
    const auto& answer = page.answer();
    const bool now = answer.finish <= page.context.asked;
    if (answer.units.empty()) {
        page.outline.paragraph(page.say("none"));
        return;
    }
    const words::Gaps gaps{{"wait", page.waitUntil(answer.finish)},
                           {"ready", page.units(answer.units.size())}};
    std::string key =
        answer.isEnough() ? (now ? "enough_now" : "enough") : (now ? "too_few_now" : "too_few");
    page.outline.paragraph(page.say(key, gaps));
    if (now) return;
    const auto more = answer.finishOfOneMore;
    page.outline.paragraph(
        more < answer.finish
            ? page.say("one_more",
                       {{"time", page.from(more)}, {"gain", page.between(more, answer.finish)}})
            : page.say("one_more_nothing"));
    if (!answer.exact)
        page.outline.paragraph(page.say("not_proved", {{"time", page.time(answer.bound)}}));
}

std::string remarksOf(const Page& page, const rules::MusterUnit& unit) {
    std::string text;
    const auto add = [&text](const std::string& remark) {
        text += (text.empty() ? "" : "; ") + remark;
    };
    std::set<std::size_t> people;
    for (const auto& step : unit.steps) people.insert(step.person);
    std::vector<std::string> numbers;
    for (const std::size_t person : people) numbers.push_back(std::to_string(person));
    if (numbers.size() == 1) add(page.say("by_one", {{"numbers", numbers.front()}}));
    if (numbers.size() > 1) add(page.say("by_several", {{"numbers", page.words.all(numbers)}}));
    if (unit.readyFor)
        add(page.say("ready_for", {{"other", words::groupLabel(page.context, *unit.readyFor)}}));
    if (unit.runsOut.empty()) return text;
    const auto context = page.muster.context(page.words, unit.device);
    std::vector<std::string> findings;
    for (const auto& finding : unit.runsOut)
        findings.push_back(
            words::brief(context, findingNamed(page.muster.row(unit.device).assessment, finding)));
    add(page.say("runs_out", {{"findings", page.words.all(findings)}}));
    return text;
}

// A unit that is off, or not known to be on, counts as switched on at once where a check waits for
// that.
bool mustBeSwitchedOn(const Page& page, const rules::MusterUnit& unit) {
    const auto& state = page.muster.board.state;
    return std::any_of(unit.steps.begin(), unit.steps.end(), [&](const rules::MusterStep& step) {
        const bool isCheck = step.task.kind == rules::TaskKind::Check;
        const auto* check = isCheck ? state.rulebook->check(step.task.subject) : nullptr;
        return check && rules::powerUnknown(*state.device(unit.device), *check);
    });
}

void addSwitchOn(Page& page) {
    std::vector<std::string> devices;
    for (const auto& unit : page.answer().units) {
        if (mustBeSwitchedOn(page, unit)) devices.push_back(words::shown(unit.device));
    }
    if (devices.empty()) return;
    std::sort(devices.begin(), devices.end());
    page.outline.gap();
    page.outline.paragraph(page.say("switch_on", {{"devices", page.words.all(devices)}}));
}

void addUnits(Page& page) {
    const auto& units = page.answer().units;
    if (units.empty()) return;
    Table table({page.say("ready"), page.words.say("board.unit"), page.words.say("board.place"),
                 page.words.say("board.remarks")});
    for (const auto& unit : units) {
        const bool now = unit.readyAt <= page.context.asked;
        table.add({now ? page.say("now") : page.cell(unit.readyAt), words::shown(unit.device),
                   page.placeOf(unit.device), remarksOf(page, unit)});
    }
    page.outline.gap();
    page.outline.heading(page.say("in_order"));
    page.outline.table(std::move(table), 2);
}

// A step of one person, and of which unit.
struct Turn {
    const rules::MusterUnit* unit;
    const rules::Task* task;
};

using Turns = std::map<std::size_t, std::vector<Turn>>;  // by person

Turns turnsOf(const rules::Muster& answer) {
    Turns turns;
    for (const auto& unit : answer.units) {
        for (const auto& step : unit.steps) turns[step.person].push_back({&unit, &step.task});
    }
    for (auto& [person, all] : turns) {
        std::stable_sort(all.begin(), all.end(), [](const Turn& a, const Turn& b) {
            if (a.task->start != b.task->start) return a.task->start < b.task->start;
            return a.task->attended < b.task->attended;
        });
    }
    return turns;
}

// How long it takes, what runs by itself, what it waits for.
std::string remarksOf(const Context& context, const rules::Task& task) {
    const auto& words = context.words;
    std::vector<std::string> remarks;
    const auto takes = task.finish - task.start;
    if (takes.ms > 0) remarks.push_back(words::duration(words, takes));
    const auto alone = task.finish - task.attended;
    if (alone.ms > 0) remarks.push_back(words::unattended(words, alone));
    if (task.notBefore == task.start)
        remarks.push_back(
            words.say("plan.not_before",
                      {{"time", context.times().time(words::wholeMinute(*task.notBefore))}}));
    std::string text;
    for (const auto& remark : remarks) text += (text.empty() ? "" : "; ") + remark;
    return text;
}

std::string stepOf(const Context& context, const rules::Task& task) {
    return words::task(context, rules::name(task.kind), task.subject, task.samePart);
}

void addPerson(Page& page, std::size_t person, const std::vector<Turn>& turns) {
    Table table({page.words.say("plan.time"), page.words.say("board.unit"),
                 page.words.say("board.place"), page.words.say("plan.step"),
                 page.words.say("plan.remarks")});
    Instant free = page.context.asked;
    for (const auto& turn : turns) {
        const auto context = page.muster.context(page.words, turn.unit->device);
        table.add({page.cell(turn.task->start), words::shown(turn.unit->device),
                   page.placeOf(turn.unit->device), stepOf(context, *turn.task),
                   remarksOf(context, *turn.task)});
        free = std::max(free, turn.task->attended);
    }
    const words::Gaps gaps{{"number", std::to_string(person)}, {"time", page.from(free)}};
    page.outline.gap();
    page.outline.heading(page.say("person", gaps));
    page.outline.table(std::move(table), 2);
}

void addPeople(Page& page) {
    const auto turns = turnsOf(page.answer());
    if (turns.empty()) return;
    for (const auto& [person, all] : turns) addPerson(page, person, all);
    const std::size_t idle = page.answer().question.people - turns.size();
    if (idle == 0) return;
    page.outline.gap();
    page.outline.paragraph(page.say("idle", {{"idle", page.people(idle)}}));
}

// Why a unit is not among those that can be ready, where that is soon said for many.
std::string reasonOf(const Page& page, const rules::MusterRest& rest) {
    if (page.muster.row(rest.device).inDoubt)
        return isDoubtByClock(page.muster.board.provenance) ? "rest_later" : "rest_in_doubt";
    for (const auto& blocker : rest.blockers) {
        if (blocker.starts_with("group_unsupported")) return "rest_unsupported";
    }
    for (const auto& blocker : rest.blockers) {
        if (blocker == "in_use") return "rest_in_use";
    }
    return "";
}

void addRest(Page& page) {
    if (page.answer().rest.empty()) return;
    std::map<std::string, std::vector<std::string>> together;
    Table table(
        {page.words.say("board.unit"), page.words.say("board.place"), page.say("in_the_way")});
    for (const auto& rest : page.answer().rest) {
        const auto reason = reasonOf(page, rest);
        if (!reason.empty()) {
            together[reason].push_back(words::shown(rest.device));
            continue;
        }
        const auto context = page.muster.context(page.words, rest.device);
        std::string text;
        for (const auto& blocker : rest.blockers) {
            text += (text.empty() ? "" : " ") +
                    blockerText(context, page.muster.row(rest.device).assessment, blocker);
            const auto lifters = words::lifters(context, blocker);
            if (!lifters.empty()) text += " " + lifters;
        }
        table.add({words::shown(rest.device), page.placeOf(rest.device), text});
    }
    page.outline.gap();
    page.outline.heading(page.say("rest"));
    if (!table.isEmpty()) page.outline.table(std::move(table), 2);
    for (const auto& [reason, devices] : together)
        page.outline.paragraph(page.say(reason, {{"devices", page.words.all(devices)}}), 2);
}

}  // namespace

Outline outlineOf(const Muster& muster, const words::Words& words) {
    Page page{muster, words, muster.board.context(words)};
    page.outline.paragraph(page.say("title", {{"time", page.time(page.context.asked)}}));
    addAnswer(page);
    page.outline.gap();
    page.outline.head(page.context, muster.board.provenance);
    addUnits(page);
    addSwitchOn(page);
    addPeople(page);
    addRest(page);
    page.outline.caution(words);
    return std::move(page.outline);
}

std::string toText(const Muster& muster, const words::Words& words, const TextOptions& options) {
    return outlineOf(muster, words).text(usableWidth(options));
}

}  // namespace report
