// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The head of every answer in words. Knows no file.
#include "report/provenance.h"

#include "logbook/json.h"

#include <algorithm>

namespace report {

namespace {

std::string textMember(const logbook::json::Value* body, std::string_view name) {
    const auto* member = body ? body->find(name) : nullptr;
    const auto* text = member ? member->string() : nullptr;
    return text ? *text : "";
}

std::string verifiedLine(const words::Context& context, const Provenance& provenance) {
    // What was noted of it may be what cannot be read.
    if (!provenance.verified)
        return context.words.say(provenance.problems.empty() ? "board.verified_never"
                                                             : "board.verified_not_known");
    if (!provenance.verified->isHowFarKnown)
        return context.words.say("board.verified_how_far",
                                 {{"time", context.times().full(provenance.verified->at)}});
    std::vector<std::string> heads;
    for (const auto& [station, seq] : provenance.verified->upTo)
        heads.push_back(logbook::toText(logbook::RecordName{station, seq}));
    return context.words.say(
        "board.verified",
        {{"time", context.times().full(provenance.verified->at)},
         {"heads", heads.empty() ? context.words.say("plain.nothing") : context.words.all(heads)}});
}

}  // namespace

std::vector<StationHeard> stationsHeard(const rules::Log& log, Instant knownAt) {
    std::map<std::string, Instant> latest;
    for (const auto& record : log.records()) {
        if (record.entered > knownAt) continue;
        auto& heard = latest.try_emplace(record.name.station, record.entered).first->second;
        heard = std::max(heard, record.entered);
    }
    std::vector<StationHeard> stations;
    for (const auto& [station, heard] : latest) stations.push_back({station, heard});
    return stations;
}

words::RecordLookup lookupIn(const rules::Log& log) {
    return [&log](const logbook::RecordName& name) -> const logbook::Record* {
        const auto index = log.find(name);
        return index ? &log.records()[*index] : nullptr;
    };
}

Adopter adopterOf(const rules::State& state, const words::RecordLookup& lookup) {
    if (!state.adopted || !lookup) return {};
    const auto* record = lookup(state.adopted->name);
    if (!record) return {};
    const auto content = logbook::json::parse(record->content);
    if (!content) return {};
    const auto* body = content->find("body");
    return {textMember(body, "department"), textMember(body, "facility")};
}

std::vector<std::string> heardLines(const words::Context& context, const Provenance& provenance) {
    std::vector<std::string> lines;
    for (const auto& station : provenance.stations) {
        if (station.heard)
            lines.push_back(context.words.say(
                "board.heard",
                {{"station", station.station}, {"time", context.times().full(*station.heard)}}));
        else
            lines.push_back(context.words.say("board.heard_never", {{"station", station.station}}));
    }
    return lines;
}

std::vector<std::string> staleLines(const words::Context& context, const Provenance& provenance) {
    std::vector<std::string> lines;
    for (const auto& station : provenance.stations) {
        if (!station.heard || context.asked - *station.heard <= provenance.staleAfter) continue;
        lines.push_back(context.words.say(
            "board.stale",
            {{"station", station.station}, {"time", context.times().lately(*station.heard)}}));
    }
    return lines;
}

std::vector<std::string> headLines(const words::Context& context, const Provenance& provenance,
                                   const std::optional<std::string>& groupAsked) {
    const auto& words = context.words;
    std::vector<std::string> lines;
    for (const auto& problem : provenance.problems)
        lines.push_back(words.say("board.problem", {{"problem", problem}}));
    for (const auto& stale : staleLines(context, provenance))
        lines.push_back(words.say("board.problem", {{"problem", stale}}));
    const auto adopter = adopterOf(context.state, context.lookup);
    if (!adopter.department.empty() && !adopter.facility.empty())
        lines.push_back(words.say("board.department", {{"department", adopter.department},
                                                       {"facility", adopter.facility}}));
    lines.push_back(words.say("board.edition", {{"edition", context.state.rulebook->edition},
                                                {"title", context.state.rulebook->title}}));
    lines.push_back(words.say("board.asked", {{"time", context.times().full(context.asked)}}));
    if (groupAsked)
        lines.push_back(
            words.say("board.asked_group", {{"group", words::groupLabel(context, *groupAsked)}}));
    if (provenance.knownAt == rules::unlimited)
        lines.push_back(words.say("board.known_all"));
    else
        lines.push_back(
            words.say("board.known_at", {{"time", context.times().full(provenance.knownAt)}}));
    for (auto& heard : heardLines(context, provenance)) lines.push_back(std::move(heard));
    lines.push_back(verifiedLine(context, provenance));
    return lines;
}

}  // namespace report
