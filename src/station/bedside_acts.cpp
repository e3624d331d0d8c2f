// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a press states, as the body of an entry; see bedside.h.
#include "station/bedside.h"

#include "logbook/kind.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <set>
#include <utility>

namespace station {

namespace {

constexpr int recordsLookedThrough = 200;

namespace json = logbook::json;
using report::AskedMeasure;
using report::CheckToLog;

json::Array arrayOf(const std::vector<std::string>& texts) {
    return json::Array(texts.begin(), texts.end());
}

// A conversion brings digits that nobody typed: "0.18 L/min" is 180 mL/min, not
// 180.00000000000003. Twelve figures are more than any limit is told apart by.
double rounded(double value) {
    std::array<char, 64> digits{};
    std::snprintf(digits.data(), digits.size(), "%.12g", value);
    return std::strtod(digits.data(), nullptr);
}

Result<json::Object> measuresOf(const words::Words& words, const CheckToLog& check,
                                const std::vector<TypedMeasure>& typed) {
    using Standing = report::MeasureJudgement::Standing;
    json::Object measures;
    for (const auto& each : typed) {
        const auto asked =
            std::find_if(check.measures.begin(), check.measures.end(),
                         [&](const AskedMeasure& measure) { return measure.key == each.key; });
        if (asked == check.measures.end()) {
            continue;
        }
        const auto judged = report::judge(words, *asked, each.value, each.unit);
        if (judged.standing == Standing::OtherDimension ||
            judged.standing == Standing::NotANumber) {
            auto problem = problemOf(words, "entry.other_dimension",
                                     {{"measure", words.inside(asked->label)},
                                      {"unit", each.unit},
                                      {"wanted", asked->unit}});
            problem.details.push_back(judged.sentence);
            return tl::unexpected(std::move(problem));
        }
        const double value = each.unit == asked->unit ? each.value : rounded(judged.value);
        measures.emplace_back(each.key,
                              json::Object{{"value", value}, {"unit", asked->unit}});
    }
    return measures;
}

struct Attempt {
    std::string_view outcome;
    std::vector<std::string> conditions;
};

Result<Act> attemptOf(const words::Words& words, const CheckToLog& check, const Attempt& attempt,
                      const std::vector<TypedMeasure>& typed) {
    auto measures = measuresOf(words, check, typed);
    if (!measures) {
        return tl::unexpected(std::move(measures.error()));
    }
    Act act{"check", {{"check", check.check}, {"outcome", attempt.outcome}}};
    if (!measures->empty()) {
        act.body.emplace_back("measures", std::move(*measures));
    }
    if (!attempt.conditions.empty()) {
        act.body.emplace_back("conditions", arrayOf(attempt.conditions));
    }
    return act;
}

std::vector<std::string> conditionsBut(const CheckToLog& check,
                                       const std::vector<std::string>& notSo) {
    std::vector<std::string> conditions;
    for (const auto& condition : check.conditions) {
        if (std::find(notSo.begin(), notSo.end(), condition.key) == notSo.end()) {
            conditions.push_back(condition.key);
        }
    }
    return conditions;
}

}  // namespace

Entry entryOf(const Doing& doing, Act act) {
    Entry entry{doing.by, std::move(act.kind), doing.device, std::move(act.body)};
    // What cannot be backdated is for now, whatever the rest of the session is for.
    const auto kind = logbook::kindOf(entry.kind);
    if (!kind || !logbook::mustBeTimely(*kind)) {
        entry.at = doing.at;
    }
    entry.doneBy = doing.doneBy;
    entry.witness = doing.witness;
    entry.batch = doing.batch;
    entry.namesNoPatient = doing.namesNoPatient;
    return entry;
}

std::vector<Entry> entriesOf(const Doing& doing, std::vector<Act> acts) {
    std::vector<Entry> entries;
    for (auto& act : acts) {
        entries.push_back(entryOf(doing, std::move(act)));
    }
    return entries;
}

std::string batchName(const Surroundings& surroundings, const Standing& standing) {
    const auto now = surroundings.clock.now();
    const auto own = standing.facts.ownStation.value_or("");
    const auto begun = own + " " + toText(now);
    const auto head = standing.facts.heads.find(own);
    std::set<std::string> taken;
    // No record of such a session was entered before it began, unless the clock has gone back.
    auto earlier = recordsLookedThrough;
    for (auto seq = head == standing.facts.heads.end() ? 0 : head->second.head.seq;
         seq > 0 && earlier > 0; --seq) {
        const auto* record = standing.lookup({own, seq});
        earlier -= record == nullptr || record->entered < now ? 1 : 0;
        if (record != nullptr && record->batch && record->batch->starts_with(begun)) {
            taken.insert(*record->batch);
        }
    }
    auto name = begun;
    for (int number = 2; taken.contains(name); ++number) {
        name = begun + " " + std::to_string(number);
    }
    return name;
}

Result<Act> passOf(const words::Words& words, const CheckToLog& check,
                   const std::vector<TypedMeasure>& measures) {
    return attemptOf(words, check, {"pass", conditionsBut(check, {})}, measures);
}

Result<Act> notSoOf(const words::Words& words, const CheckToLog& check,
                    const std::vector<TypedMeasure>& measures,
                    const std::vector<std::string>& notSo) {
    return attemptOf(words, check, {"pass", conditionsBut(check, notSo)}, measures);
}

Result<Act> failOf(const words::Words& words, const CheckToLog& check,
                   const std::vector<TypedMeasure>& measures,
                   const std::optional<std::vector<std::string>>& notSo) {
    const auto stated =
        notSo ? conditionsBut(check, *notSo) : std::vector<std::string>();
    return attemptOf(words, check, {"fail", stated}, measures);
}

Act noteOf(const CheckToLog& check, const std::string& seen) {
    return {"note", {{"text", check.label + ": " + seen}}};
}

Act incompleteOf(const CheckToLog& check, const std::vector<std::string>& notSo) {
    Act act{"check", {{"check", check.check}, {"outcome", "incomplete"}}};
    if (const auto conditions = conditionsBut(check, notSo); !conditions.empty()) {
        act.body.emplace_back("conditions", arrayOf(conditions));
    }
    return act;
}

StatedPart statedPart(const report::PartProposal& proposal) {
    return {proposal.position, proposal.texts, proposal.groups};
}

Act fitOf(const StatedPart& part) {
    json::Object stated;
    for (const auto& [key, value] : part.texts) {
        if (!value.empty()) {
            stated.emplace_back(key, value);
        }
    }
    if (part.groups) {
        stated.emplace_back("groups", arrayOf(*part.groups));
    }
    return {"fit", {{"position", part.position}, {"part", std::move(stated)}}};
}

Act removeOf(const std::string& position) {
    return {"remove", {{"position", position}}};
}

std::vector<Act> swapOf(const StatedPart& part) {
    return {removeOf(part.position), fitOf(part)};
}

Act reprocessOf(const std::vector<std::string>& positions, logbook::Level level,
                const std::optional<std::string>& load) {
    Act act{"reprocess", {{"positions", arrayOf(positions)}, {"level", logbook::name(level)}}};
    if (load && !load->empty()) {
        act.body.emplace_back("load", *load);
    }
    return act;
}

std::optional<Act> actOf(const report::ActToLog& act) {
    if (const auto* group = std::get_if<report::GroupToLog>(&act)) {
        return Act{"group", {{"group", group->group}}};
    }
    if (const auto* power = std::get_if<report::PowerToLog>(&act)) {
        return Act{"power", {{"on", power->on}}};
    }
    if (const auto* remove = std::get_if<report::RemoveToLog>(&act)) {
        return removeOf(remove->position);
    }
    if (const auto* reprocess = std::get_if<report::ReprocessToLog>(&act)) {
        return reprocessOf({reprocess->position}, reprocess->level);
    }
    if (const auto* pause = std::get_if<report::PauseToLog>(&act)) {
        return Act{"use_pause", {{"reason", pause->reason}}};
    }
    if (std::holds_alternative<report::ResumeToLog>(act)) {
        return Act{"use_resume", {}};
    }
    return std::nullopt;
}

}  // namespace station
