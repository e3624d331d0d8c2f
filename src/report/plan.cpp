// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The way to ready as a model and as JSON. Its text is made in plan_text.cpp.
#include "report/plan.h"

#include "report/later_doubt.h"

namespace report {

namespace {

namespace json = logbook::json;

json::Value orNull(const std::optional<std::string>& text) {
    return text ? json::Value(*text) : json::Value();
}

json::Array textsOf(const std::vector<std::string>& texts) {
    return json::Array(texts.begin(), texts.end());
}

json::Value taskOf(const rules::Task& task) {
    json::Object object{{"task", rules::toText(task)},
                        {"start", logbook::toText(task.start)},
                        {"finish", logbook::toText(task.finish)},
                        {"attended_until", logbook::toText(task.attended)}};
    object.emplace_back("not_before",
                        task.notBefore ? json::Value(logbook::toText(*task.notBefore))
                                       : json::Value());
    return object;
}

}  // namespace

std::optional<WayToReady> makeWayToReady(rules::State state, words::RecordLookup lookup,
                                         const PlanQuestion& question, Provenance provenance) {
    if (!state.device(question.device)) return std::nullopt;
    WayToReady way{makeBoard(std::move(state), std::move(lookup), {question.asked, question.group},
                             std::move(provenance)),
                   {}};
    std::erase_if(way.board.rows,
                  [&](const BoardRow& row) { return row.assessment.device != question.device; });
    const auto& known = way.board.state;
    // Nothing that a log in doubt says of ready is told: neither now nor after some steps.
    if (!way.board.rows.empty() && way.board.rows.front().inDoubt) {
        way.plan.device = question.device;
        way.plan.group = way.board.rows.front().assessment.group;
        way.plan.from = way.plan.bound = question.asked;
        way.plan.blockers = {isDoubtByClock(way.board.provenance) ? "later_entries" : "in_doubt"};
        return way;
    }
    way.plan = rules::plan(known, *known.device(question.device), question.asked, question.group);
    return way;
}

json::Value toJson(const WayToReady& way) {
    const auto& plan = way.plan;
    json::Array tasks;
    for (const auto& task : plan.tasks) tasks.push_back(taskOf(task));
    return json::Object{
        {"device", plan.device},
        {"group", orNull(plan.group)},
        {"from", logbook::toText(plan.from)},
        {"ready_at", plan.readyAt ? json::Value(logbook::toText(*plan.readyAt)) : json::Value()},
        {"tasks", std::move(tasks)},
        {"blockers", textsOf(plan.blockers)},
        {"runs_out", textsOf(plan.runsOut)},
        {"exact", plan.exact},
        {"bound", logbook::toText(plan.bound)}};
}

}  // namespace report
