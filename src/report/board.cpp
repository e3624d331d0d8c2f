// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The board as a model and as JSON. Its text is made in board_text.cpp.
#include "report/board.h"

namespace report {

namespace {

namespace json = logbook::json;
using rules::Verdict;

json::Value orNull(const std::string& text) {
    return text.empty() ? json::Value() : json::Value(text);
}

json::Value orNull(const std::optional<std::string>& text) {
    return text ? json::Value(*text) : json::Value();
}

json::Value orNull(const std::optional<Instant>& instant) {
    return instant ? json::Value(logbook::toText(*instant)) : json::Value();
}

json::Value nameOrNull(const std::optional<rules::RecordRef>& record) {
    return record ? json::Value(logbook::toText(record->name)) : json::Value();
}

json::Value blockingOf(const rules::Finding& finding) {
    switch (finding.blocking()) {
        case rules::Blocks::Yes: return true;
        case rules::Blocks::No: return false;
        case rules::Blocks::Start: break;
    }
    return "start";
}

json::Value discountedOf(const rules::Finding& finding) {
    if (!finding.discounted) return {};
    json::Array reasons(finding.discounted->reasons.begin(), finding.discounted->reasons.end());
    return json::Object{{"record", logbook::toText(finding.discounted->record.name)},
                        {"reasons", std::move(reasons)}};
}

json::Value findingOf(const rules::Finding& finding) {
    return json::Object{{"finding", rules::name(finding.code)},
                        {"subject", orNull(finding.subject)},
                        {"blocking", blockingOf(finding)},
                        {"reason", orNull(finding.reason)},
                        {"waived_until", orNull(finding.waivedUntil)},
                        {"record", nameOrNull(finding.record)},
                        {"since", orNull(finding.since)},
                        {"not_before", orNull(finding.notBefore)},
                        {"discounted", discountedOf(finding)}};
}

json::Value lastOf(const rules::Assessment& assessment) {
    if (!assessment.last) return {};
    return json::Object{{"record", logbook::toText(assessment.last->name)},
                        {"at", logbook::toText(assessment.last->at)}};
}

BoardRow makeRow(const Board& board, const rules::Device& device) {
    BoardRow row{rules::assess(board.state, device, {.at = board.asked, .group = board.groupAsked}),
                 board.provenance.devicesInDoubt.contains(device.serial)};
    if (row.inDoubt && row.assessment.verdict == Verdict::Ready) {
        row.assessment.verdict = Verdict::NotReady;
        row.assessment.readyUntil.reset();
    }
    return row;
}

}  // namespace

words::Context Board::context(const words::Words& words, const BoardRow& row) const {
    return {words, state,  state.device(row.assessment.device),
            asked, row.assessment.group, lookup, confirmations};
}

words::Context Board::context(const words::Words& words) const {
    return {words, state, nullptr, asked, groupAsked, lookup, confirmations};
}

Board makeBoard(rules::State state, words::RecordLookup lookup, const BoardQuestion& question,
                Provenance provenance) {
    Board board{question.asked,
                question.group,
                std::move(state),
                std::move(lookup),
                std::move(provenance),
                {},
                {}};
    for (const auto& group : board.state.rulebook->groups)
        if (!question.group || *question.group == group.key)
            board.groups.push_back({group.key, 0, group.par});
    for (const auto& [serial, device] : board.state.devices) {
        auto row = makeRow(board, *device);
        const auto& found = row.assessment;
        for (auto& group : board.groups)
            if (found.verdict == Verdict::Ready && found.group == group.group) ++group.ready;
        board.rows.push_back(std::move(row));
    }
    return board;
}

json::Object toJson(const BoardRow& row) {
    const auto& found = row.assessment;
    const bool retired = found.verdict == Verdict::Retired;
    json::Object checks;
    json::Array findings;
    if (!retired) {
        for (const auto& [key, status] : found.checks)
            checks.emplace_back(key, rules::name(status));
        for (const auto& finding : found.findings) findings.push_back(findingOf(finding));
    }
    json::Object object{{"device", found.device},
                        {"group", retired ? json::Value() : orNull(found.group)},
                        {"verdict", rules::name(found.verdict)},
                        {"in_use", found.inUse},
                        {"paused", found.paused},
                        {"ready_until", orNull(found.readyUntil)},
                        {"last", lastOf(found)}};
    // A list of members would copy these.
    object.emplace_back("checks", std::move(checks));
    object.emplace_back("findings", std::move(findings));
    if (row.inDoubt) object.emplace_back("in_doubt", true);
    return object;
}

json::Value toJson(const Board& board) {
    json::Array rows;
    for (const auto& row : board.rows) rows.emplace_back(toJson(row));
    return rows;
}

}  // namespace report
