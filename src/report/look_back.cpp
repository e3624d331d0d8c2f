// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking back as a model and as JSON. Its text is made in look_back_text.cpp.
#include "report/look_back.h"

#include <algorithm>
#include <set>

namespace report {

namespace {

namespace json = logbook::json;

std::vector<SinceEntry> sinceOf(const rules::Log& log, const rules::LookBack& back,
                                Instant knownAt) {
    std::set<std::size_t> indexes(back.enteredSince.begin(), back.enteredSince.end());
    indexes.insert(back.struckSince.begin(), back.struckSince.end());
    std::vector<SinceEntry> since;
    for (const auto index : indexes) {
        const auto& record = log.records()[index];
        SinceEntry entry{record, record.entered > knownAt, std::nullopt};
        if (const auto* strike = log.struckBy(index)) entry.strike = *strike;
        since.push_back(std::move(entry));
    }
    return since;
}

std::optional<Explain> explainBy(const rules::Log& log, const LookBackQuestion& question,
                                 rules::State state, Provenance provenance) {
    const ExplainQuestion asked{question.device, question.asked, question.group};
    auto records = ofRecords(log, asked, provenance.knownAt);
    return makeExplain(std::move(state), lookupIn(log), asked, std::move(provenance),
                       std::move(records));
}

// The same finding, on the same ground, and permitted as long.
bool isSameFinding(const rules::Finding& one, const rules::Finding& other) {
    const auto attempt = [](const rules::Finding& finding) {
        return finding.discounted ? std::optional(finding.discounted->record) : std::nullopt;
    };
    return rules::toText(one) == rules::toText(other) && one.blocking() == other.blocking() &&
           one.record == other.record && one.waivedUntil == other.waivedUntil &&
           attempt(one) == attempt(other);
}

bool areSame(const std::vector<rules::Finding>& some, const std::vector<rules::Finding>& others) {
    return std::equal(some.begin(), some.end(), others.begin(), others.end(), isSameFinding);
}

json::Value unitOf(const std::optional<Explain>& explain) {
    return explain ? json::Value(toJson(explain->row())) : json::Value();
}

json::Value strikeOf(const std::optional<logbook::Record>& strike) {
    if (!strike) return {};
    const auto* body = std::get_if<logbook::body::Strike>(&strike->body);
    return json::Object{{"record", logbook::toText(strike->name)},
                        {"by", strike->by},
                        {"entered", logbook::toText(strike->entered)},
                        {"reason", body ? body->reason : ""}};
}

json::Value entryOf(const SinceEntry& entry) {
    const auto& record = entry.record;
    auto content = json::parse(record.content);
    const auto later = static_cast<double>((record.entered - record.at).ms) / 1000;
    return json::Object{{"record", logbook::toText(record.name)},
                        {"content", content ? std::move(*content) : json::Value()},
                        {"entered_since", entry.enteredSince},
                        {"entered_later_s", later},
                        {"struck", strikeOf(entry.strike)}};
}

}  // namespace

bool LookingBack::isSame() const {
    if (!known || !actual) return !known && !actual;
    const auto& then = known->row().assessment;
    const auto& now = actual->row().assessment;
    const auto& thenUnit = *known->board.state.device(device);
    const auto& nowUnit = *actual->board.state.device(device);
    return then.verdict == now.verdict && then.group == now.group && then.checks == now.checks &&
           then.readyUntil == now.readyUntil && areSame(then.findings, now.findings) &&
           thenUnit.location == nowUnit.location &&
           known->placeUnsaidSince == actual->placeUnsaidSince;
}

std::optional<LookingBack> makeLookingBack(const rules::Log& log,
                                           const LookBackQuestion& question,
                                           const Provenance& provenance) {
    auto found =
        rules::lookBack(log, {question.device, question.asked, question.knownAt, question.group});
    if (!found.known && !found.actual) return std::nullopt;
    LookingBack back{question.device, question.asked, question.knownAt, {}, {}, {}};
    back.since = sinceOf(log, found, question.knownAt);
    auto then = provenance;
    auto now = provenance;
    then.knownAt = question.knownAt;
    now.knownAt = rules::unlimited;
    back.known = explainBy(log, question, std::move(found.knownState), std::move(then));
    back.actual = explainBy(log, question, std::move(found.actualState), std::move(now));
    return back;
}

json::Value toJson(const LookingBack& back) {
    json::Array since;
    for (const auto& entry : back.since) since.push_back(entryOf(entry));
    return json::Object{{"known_at", logbook::toText(back.knownAt)},
                        {"known", unitOf(back.known)},
                        {"actual", unitOf(back.actual)},
                        {"same", back.isSame()},
                        {"since", std::move(since)}};
}

}  // namespace report
