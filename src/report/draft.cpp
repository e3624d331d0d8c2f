// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a draft would change, as a model and as JSON. Its text is made in draft_text.cpp.
#include "report/draft.h"

namespace report {

namespace {

namespace json = logbook::json;

json::Value textsOf(const std::vector<rules::Finding>& findings) {
    json::Array texts;
    for (const auto& finding : findings) texts.emplace_back(rules::toText(finding));
    return texts;
}

json::Array keysOf(const std::vector<std::string>& keys) {
    return json::Array(keys.begin(), keys.end());
}

json::Value noMoreOf(const rules::NamedNoMore& noMore) {
    return json::Object{{"groups", keysOf(noMore.groups)},
                        {"checks", keysOf(noMore.checks)},
                        {"positions", keysOf(noMore.positions)},
                        {"services", keysOf(noMore.services)},
                        {"units", keysOf(noMore.units)}};
}

json::Value flipOf(const rules::Flip& flip) {
    return json::Object{{"device", flip.device},
                        {"now", rules::name(flip.now)},
                        {"then", rules::name(flip.then)},
                        {"blocks_now", textsOf(flip.blocksNow)},
                        {"blocks_then", textsOf(flip.blocksThen)}};
}

json::Value underOf(const rules::MonthUnder& under) {
    json::Object starts;
    int all = 0;
    for (std::size_t i = 0; i < under.starts.size(); ++i) {
        starts.emplace_back(rules::name(static_cast<rules::StartClass>(i)), under.starts[i]);
        all += under.starts[i];
    }
    const int compliant = under.starts[0] + under.starts[1] + under.starts[2];
    json::Object groups;
    for (const auto& group : under.groups) {
        const double seconds = static_cast<double>(group.belowPar.ms) / 1000;
        groups.emplace_back(group.group, json::Object{{"below_par_s", seconds}});
    }
    return json::Object{
        {"starts", std::move(starts)},
        {"compliance",
         all > 0 ? json::Value(static_cast<double>(compliant) / all) : json::Value()},
        {"groups", std::move(groups)},
        {"checks", under.checksCalled}};
}

json::Value monthOf(const rules::MonthCompared& month) {
    return json::Object{{"month", logbook::toText(logbook::Day(month.month / 1)).substr(0, 7)},
                        {"from", logbook::toText(month.from)},
                        {"to", logbook::toText(month.to)},
                        {"now", underOf(month.now)},
                        {"then", underOf(month.then)}};
}

}  // namespace

words::Context Draft::now(const words::Words& words) const {
    return {words, answer.now, nullptr, question.at, std::nullopt, lookup};
}

words::Context Draft::then(const words::Words& words) const {
    return {words, answer.then, nullptr, question.at, std::nullopt, lookup};
}

Draft makeDraft(const rules::Log& log, const std::shared_ptr<const rules::Rulebook>& draft,
                const rules::WhatIfQuestion& question, Provenance provenance) {
    Draft made{rules::whatIf(log, draft, question), question, std::move(provenance),
               lookupIn(log)};
    // Nothing that a log in doubt says of ready is told.
    if (!made.provenance.problems.empty()) made.answer.flips.clear();
    return made;
}

json::Value toJson(const Draft& draft) {
    json::Array flips, months;
    for (const auto& flip : draft.answer.flips) flips.push_back(flipOf(flip));
    for (const auto& month : draft.answer.months) months.push_back(monthOf(month));
    return json::Object{{"at", logbook::toText(draft.question.at)},
                        {"edition_now", draft.answer.now.rulebook->edition},
                        {"edition_then", draft.answer.then.rulebook->edition},
                        {"named_anew",
                         json::Object{{"checks", keysOf(draft.answer.anew.checks)},
                                      {"positions", keysOf(draft.answer.anew.positions)},
                                      {"services", keysOf(draft.answer.anew.services)}}},
                        {"named_no_more", noMoreOf(draft.answer.noMore)},
                        {"flips", std::move(flips)},
                        {"in_doubt", !draft.provenance.problems.empty()},
                        {"months_before", draft.answer.monthsBefore},
                        {"months", std::move(months)}};
}

}  // namespace report
