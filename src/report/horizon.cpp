// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The horizon as a model and as JSON. Its text is made in horizon_text.cpp.
#include "report/horizon.h"

namespace report {

namespace {

namespace json = logbook::json;

double seconds(Duration duration) {
    return static_cast<double>(duration.ms) / 1000;
}

json::Value orNull(const std::optional<Instant>& instant) {
    return instant ? json::Value(logbook::toText(*instant)) : json::Value();
}

json::Value lapseOf(const rules::Lapse& lapse) {
    json::Array findings;
    for (const auto& finding : lapse.findings) findings.emplace_back(rules::toText(finding));
    return json::Object{{"device", lapse.device},
                        {"group", lapse.group ? json::Value(*lapse.group) : json::Value()},
                        {"at", logbook::toText(lapse.at)},
                        {"findings", std::move(findings)}};
}

json::Value sessionOf(const rules::Session& session) {
    json::Array tasks;
    for (const auto& task : session.tasks)
        tasks.emplace_back(json::Object{{"task", rules::toText(task)},
                                        {"start", logbook::toText(task.start)},
                                        {"finish", logbook::toText(task.finish)},
                                        {"attended_until", logbook::toText(task.attended)}});
    return json::Object{{"begin", logbook::toText(session.begin)},
                        {"by", logbook::toText(session.by)},
                        {"attended_s", seconds(session.attended)},
                        {"tasks", std::move(tasks)}};
}

json::Value remedyOf(const rules::Remedy& remedy) {
    json::Array sessions;
    for (const auto& session : remedy.sessions) sessions.push_back(sessionOf(session));
    return json::Object{{"device", remedy.device},
                        {"renewal", remedy.renewal},
                        {"from", logbook::toText(remedy.from)},
                        {"attended_s", seconds(remedy.attended)},
                        {"sessions", std::move(sessions)}};
}

json::Value groupOf(const rules::GroupHorizon& group) {
    json::Array remedies;
    for (const auto& remedy : group.remedies) remedies.push_back(remedyOf(remedy));
    return json::Object{{"par", group.par},
                        {"ready", group.ready},
                        {"least", group.least},
                        {"below_from", orNull(group.belowFrom)},
                        {"remedies", std::move(remedies)},
                        {"held_from", orNull(group.heldFrom)},
                        {"short_from", orNull(group.shortFrom)},
                        {"lacking", group.lacking},
                        {"beyond", json::Array(group.beyond.begin(), group.beyond.end())}};
}

}  // namespace

words::Context Horizon::context(const words::Words& words, const std::string& device) const {
    return {words, state, device.empty() ? nullptr : state.device(device), asked, {}, lookup};
}

Horizon makeHorizon(rules::State state, words::RecordLookup lookup,
                    const HorizonQuestion& question, Provenance provenance) {
    Horizon horizon{question.asked,    question.ahead,        std::move(state),
                    std::move(lookup), std::move(provenance), {}};
    horizon.found.from = question.asked;
    horizon.found.to = question.asked + question.ahead;
    if (!horizon.inDoubt())
        horizon.found = rules::horizon(horizon.state, question.asked, question.ahead);
    return horizon;
}

json::Value toJson(const Horizon& horizon) {
    const auto& found = horizon.found;
    json::Array lapses;
    for (const auto& lapse : found.lapses) lapses.push_back(lapseOf(lapse));
    json::Object groups;
    for (const auto& group : found.groups) groups.emplace_back(group.group, groupOf(group));
    json::Object object{{"from", logbook::toText(found.from)},
                        {"to", logbook::toText(found.to)},
                        {"lapses", std::move(lapses)},
                        {"groups", std::move(groups)}};
    if (horizon.inDoubt()) object.emplace_back("in_doubt", true);
    return object;
}

}  // namespace report
