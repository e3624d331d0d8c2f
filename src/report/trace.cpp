// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The trace as a model and as JSON. Its text is made in trace_text.cpp.
#include "report/trace.h"

#include "report/confirmations.h"

namespace report {

namespace {

namespace json = logbook::json;

json::Value orNull(std::string_view text) {
    return text.empty() ? json::Value() : json::Value(text);
}

json::Value orNull(const std::optional<Instant>& instant) {
    return instant ? json::Value(logbook::toText(*instant)) : json::Value();
}

json::Value nameOrNull(const std::optional<rules::RecordRef>& record) {
    return record ? json::Value(logbook::toText(record->name)) : json::Value();
}

json::Value noticeOf(const std::optional<rules::KnownNotice>& known) {
    if (!known) return {};
    return json::Object{{"key", known->notice.key},
                        {"title", known->notice.title},
                        {"action", logbook::name(known->notice.action)},
                        {"cancelled", known->notice.cancelled},
                        {"record", logbook::toText(known->record.name)}};
}

json::Value partOf(const rules::TraceStay& stay) {
    if (stay.position.empty()) return {};
    json::Object part;
    for (const auto& [key, text] : stay.part.texts) part.emplace_back(key, text);
    if (stay.part.groups)
        part.emplace_back("groups",
                          json::Array(stay.part.groups->begin(), stay.part.groups->end()));
    if (stay.part.reuse) part.emplace_back("reuse", logbook::name(*stay.part.reuse));
    if (stay.part.expires) part.emplace_back("expires", logbook::toText(*stay.part.expires));
    return part;
}

json::Value spanOf(const rules::TraceSpan& span) {
    return json::Object{{"from", logbook::toText(span.period.from)},
                        {"to", orNull(span.period.to)},
                        {"location", orNull(span.location)},
                        {"use", nameOrNull(span.use)},
                        {"paused", span.paused}};
}

json::Value stayOf(const rules::TraceStay& stay) {
    json::Array spans;
    for (const auto& span : stay.spans) spans.push_back(spanOf(span));
    return json::Object{{"device", stay.device},
                        {"position", orNull(stay.position)},
                        {"part", partOf(stay)},
                        {"record", logbook::toText(stay.fit.name)},
                        {"from", logbook::toText(stay.period.from)},
                        {"to", orNull(stay.period.to)},
                        {"ended", nameOrNull(stay.ended)},
                        {"spans", std::move(spans)},
                        {"stated_elsewhere", stay.statedElsewhere},
                        {"side", stay.side ? json::Value(rules::name(*stay.side)) : json::Value()},
                        {"done", nameOrNull(stay.done)}};
}

json::Value reprocessOf(const rules::TraceReprocess& reprocess) {
    return json::Object{{"record", logbook::toText(reprocess.record.name)},
                        {"at", logbook::toText(reprocess.record.at)},
                        {"position", reprocess.part.first},
                        {"serial", orNull(reprocess.part.second)},
                        {"device", orNull(reprocess.device)},
                        {"load", orNull(reprocess.load)},
                        {"counted", reprocess.counted}};
}

json::Value partOf(const rules::Trace& found, const rules::TracePart& part) {
    const auto* stay = part.standsIn ? &found.stays[*part.standsIn] : nullptr;
    return json::Object{{"position", part.key.first},
                        {"serial", part.key.second},
                        {"device", stay ? json::Value(stay->device) : json::Value()},
                        {"used", part.life.used},
                        {"cycles", part.life.cycles}};
}

}  // namespace

words::Context Trace::context(const words::Words& words) const {
    return {words, found.end, nullptr, found.question.at, std::nullopt, lookup,
            confirmations};
}

Trace makeTrace(const rules::Log& log, const rules::TraceQuestion& question,
                Provenance provenance) {
    return {rules::trace(log, question), std::move(provenance), lookupIn(log),
            rules::alikeKeys(log, question),
            confirmationsIn(log, {rules::unlimited, question.knownAt})};
}

json::Value toJson(const Trace& trace) {
    const auto& found = trace.found;
    json::Array stays, reprocesses, parts;
    for (const auto& stay : found.stays) stays.push_back(stayOf(stay));
    for (const auto& reprocess : found.reprocesses) reprocesses.push_back(reprocessOf(reprocess));
    for (const auto& part : found.parts) parts.push_back(partOf(found, part));
    return json::Object{{"by", rules::name(found.question.by)},
                        {"key", found.question.key},
                        {"at", logbook::toText(found.question.at)},
                        {"notice", noticeOf(found.notice)},
                        {"stays", std::move(stays)},
                        {"reprocesses", std::move(reprocesses)},
                        {"parts", std::move(parts)},
                        {"alike", json::Array(trace.alike.begin(), trace.alike.end())},
                        {"in_doubt", !trace.provenance.problems.empty()}};
}

}  // namespace report
