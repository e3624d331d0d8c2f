// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The muster as a model and as JSON. Its text is made in muster_text.cpp.
#include "report/muster.h"

#include <algorithm>

namespace report {

namespace {

namespace json = logbook::json;

json::Array textsOf(const std::vector<std::string>& texts) {
    return json::Array(texts.begin(), texts.end());
}

json::Value unitOf(const rules::MusterUnit& unit) {
    json::Array steps;
    for (const auto& step : unit.steps) {
        const auto& task = step.task;
        json::Object object{{"person", static_cast<std::int64_t>(step.person)},
                            {"task", rules::toText(task)},
                            {"start", logbook::toText(task.start)},
                            {"finish", logbook::toText(task.finish)},
                            {"attended_until", logbook::toText(task.attended)}};
        object.emplace_back("not_before", task.notBefore
                                              ? json::Value(logbook::toText(*task.notBefore))
                                              : json::Value());
        steps.push_back(std::move(object));
    }
    return json::Object{{"device", unit.device},
                        {"ready_at", logbook::toText(unit.readyAt)},
                        {"ready_for", unit.readyFor ? json::Value(*unit.readyFor) : json::Value()},
                        {"steps", std::move(steps)},
                        {"runs_out", textsOf(unit.runsOut)}};
}

}  // namespace

Muster makeMuster(rules::State state, words::RecordLookup lookup, const MusterQuestion& question,
                  Provenance provenance) {
    rules::MusterQuestion wanted{question.asked, question.group, question.units, question.people,
                                 provenance.devicesInDoubt};
    auto answer = rules::muster(state, wanted);
    return {makeBoard(std::move(state), std::move(lookup), {question.asked, question.group},
                      std::move(provenance)),
            std::move(answer)};
}

const BoardRow& Muster::row(const std::string& device) const {
    return *std::lower_bound(board.rows.begin(), board.rows.end(), device,
                             [](const BoardRow& each, const std::string& name) {
                                 return each.assessment.device < name;
                             });
}

words::Context Muster::context(const words::Words& words, const std::string& device) const {
    return board.context(words, row(device));
}

json::Value toJson(const Muster& muster) {
    const auto& answer = muster.answer;
    json::Array units, rest;
    for (const auto& unit : answer.units) units.push_back(unitOf(unit));
    for (const auto& each : answer.rest) {
        rest.push_back(json::Object{{"device", each.device},
                                    {"in_doubt", muster.row(each.device).inDoubt},
                                    {"blockers", textsOf(each.blockers)}});
    }
    return json::Object{{"group", answer.question.group},
                        {"from", logbook::toText(answer.question.at)},
                        {"wanted", static_cast<std::int64_t>(answer.question.units)},
                        {"people", static_cast<std::int64_t>(answer.question.people)},
                        {"ready_at", answer.isEnough() ? json::Value(logbook::toText(answer.finish))
                                                       : json::Value()},
                        {"units", std::move(units)},
                        {"rest", std::move(rest)},
                        {"finish", logbook::toText(answer.finish)},
                        {"exact", answer.exact},
                        {"bound", logbook::toText(answer.bound)},
                        {"finish_with_one_more", logbook::toText(answer.finishOfOneMore)}};
}

}  // namespace report
