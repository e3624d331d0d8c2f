// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit as a model and as JSON. Its text is made in explain_text.cpp.
#include "report/explain.h"

#include "report/confirmations.h"
#include "report/place_unsaid.h"

#include <algorithm>
#include <set>

namespace report {

namespace {

namespace json = logbook::json;

bool earlier(const logbook::Record& a, const logbook::Record& b) {
    return logbook::readingOrder(a, b) < 0;
}

bool sameName(const logbook::Record& a, const logbook::Record& b) {
    return a.name == b.name;
}

void sortOut(std::vector<logbook::Record>& records) {
    std::sort(records.begin(), records.end(), earlier);
    records.erase(std::unique(records.begin(), records.end(), sameName), records.end());
}

std::vector<logbook::Record> restingRecords(const Board& board) {
    std::vector<logbook::Record> records;
    const auto add = [&](const logbook::RecordName& name) {
        const auto* record = board.lookup ? board.lookup(name) : nullptr;
        if (record) records.push_back(*record);
    };
    for (const auto& finding : board.rows.front().assessment.findings) {
        if (finding.record) add(finding.record->name);
        if (finding.discounted) add(finding.discounted->record.name);
    }
    sortOut(records);
    return records;
}

json::Value recordOf(const logbook::Record& record, bool struck,
                     const logbook::Record* confirmation) {
    json::Object object{{"record", logbook::toText(record.name)}};
    auto content = json::parse(record.content);
    object.emplace_back("content", content ? std::move(*content) : json::Value());
    if (struck) object.emplace_back("struck", true);
    if (confirmation)
        object.emplace_back("confirmed_by",
                            json::Object{{"record", logbook::toText(confirmation->name)},
                                         {"by", confirmation->by},
                                         {"entered", logbook::toText(confirmation->entered)}});
    return object;
}

}  // namespace

std::optional<Explain> makeExplain(rules::State state, words::RecordLookup lookup,
                                   const ExplainQuestion& question, Provenance provenance,
                                   OfRecords records) {
    if (!state.device(question.device)) return std::nullopt;
    Explain explain{makeBoard(std::move(state), std::move(lookup), {question.asked, question.group},
                              std::move(provenance)),
                    std::move(records.recent),
                    {},
                    records.placeUnsaidSince};
    explain.board.confirmations = std::move(records.confirmations);
    std::erase_if(explain.board.rows,
                  [&](const BoardRow& row) { return row.assessment.device != question.device; });
    explain.resting = restingRecords(explain.board);
    return explain;
}

OfRecords ofRecords(const rules::Log& log, const ExplainQuestion& question, Instant knownAt) {
    return {recentRecords(log, question, knownAt),
            confirmationsIn(log, {rules::unlimited, knownAt}),
            placeUnsaidSince(log, {question.asked, knownAt}, question.device)};
}

std::vector<RecentEntry> recentRecords(const rules::Log& log, const ExplainQuestion& question,
                                       Instant knownAt, std::size_t count) {
    std::vector<RecentEntry> recent;
    for (std::size_t index = log.records().size(); index-- > 0 && recent.size() < count;) {
        const auto& record = log.records()[index];
        const bool asked = record.device == question.device && record.at <= question.asked;
        if (!asked || record.entered > knownAt) continue;
        recent.push_back({record, !log.takesPart(index, knownAt)});
    }
    return recent;
}

json::Value toJson(const Explain& explain) {
    auto object = toJson(explain.row());
    auto records = explain.resting;
    std::set<logbook::RecordName> struck;
    for (const auto& entry : explain.recent) {
        records.push_back(entry.record);
        if (entry.struck) struck.insert(entry.record.name);
    }
    sortOut(records);
    json::Array told;
    const auto& confirmations = explain.board.confirmations;
    for (const auto& record : records)
        told.push_back(recordOf(record, struck.contains(record.name),
                                !record.confirmed && confirmations ? confirmations(record.name)
                                                                   : nullptr));
    object.emplace_back("records", std::move(told));
    return object;
}

}  // namespace report
