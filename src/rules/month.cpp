// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month: one pass over the log, each start judged on the state before it; see month.h.
#include "rules/month.h"

#include "rules/start_judge.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Kind;

// The zone of the last edition known: the period is told in that.
const Zone* lastKnownZone(const Log& log, Instant knownAt) {
    State state;
    state.rulebook = log.firstEdition();
    bool any = false;
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (record.kind() != Kind::Adopt && record.kind() != Kind::Person) continue;
        if (!log.takesPart(index, knownAt)) continue;
        fold(state, record, log.editions());
        any |= state.adopted.has_value();
    }
    return any ? state.rulebook->zone.get() : nullptr;
}

void setPeriod(MonthAnswer& answer, const Zone& zone, Instant at) {
    const Day first{answer.month / std::chrono::day{1}};
    const Day next{(answer.month + std::chrono::months{1}) / std::chrono::day{1}};
    answer.from = zone.startOf(first);
    answer.to = std::max(answer.from, std::min(zone.startOf(next), at));
}

void addAnomalies(MonthAnswer& answer, const Log& log, std::size_t index,
                  std::vector<AnomalyCode> codes) {
    std::sort(codes.begin(), codes.end(),
              [](AnomalyCode a, AnomalyCode b) { return name(a) < name(b); });
    const Instant at = log.records()[index].at;
    if (at < answer.from || at >= answer.to) return;
    for (const AnomalyCode code : codes) answer.anomalies.push_back({index, code});
}

// Whether the record is a start of use that the month counts.
bool isCountedStart(const State& before, const logbook::Record& record) {
    const auto* start = std::get_if<body::UseStart>(&record.body);
    if (!start) return false;
    const Device* device = before.device(record.device);
    const bool inUse = device && !device->retired && device->use;
    return !(inUse && start->samePatient);
}

}  // namespace

std::string_view name(StartClass startClass) {
    constexpr std::array<std::string_view, 5> names{"compliant", "compliant_late",
                                                    "compliant_waived", "emergency",
                                                    "noncompliant"};
    return names.at(static_cast<std::size_t>(startClass));
}

Interval wilson95(int successes, int trials) {
    constexpr double z = 1.959963984540054;
    const double n = trials;
    const double share = successes / n;
    const double scale = 1 + z * z / n;
    const double middle = (share + z * z / (2 * n)) / scale;
    const double half = z / scale * std::sqrt(share * (1 - share) / n + z * z / (4 * n * n));
    return {std::max(0.0, middle - half), std::min(1.0, middle + half)};
}

int MonthAnswer::allStarts() const {
    return std::accumulate(starts.begin(), starts.end(), 0);
}

int MonthAnswer::compliantStarts() const {
    return starts[0] + starts[1] + starts[2];
}

tl::expected<MonthAnswer, LogFault> month(const Log& log, const MonthQuestion& question) {
    const Zone* zone = log.firstEdition() ? lastKnownZone(log, question.knownAt) : nullptr;
    if (!zone) return tl::make_unexpected(LogFault{LogFault::Code::NoEdition, {}, {}});
    MonthAnswer answer;
    answer.month = question.month;
    const auto end = log.endOfKnowledge(question.knownAt);
    setPeriod(answer, *zone, question.at ? *question.at : end.value_or(Instant{}));

    answer.end.rulebook = log.firstEdition();
    StartJudge startJudge(log, question.knownAt);
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (record.at >= answer.to) break;
        startJudge.passed(index, answer.end);
        if (!log.takesPart(index, question.knownAt)) continue;
        if (record.at >= answer.from && isCountedStart(answer.end, record)) {
            StartException exception = startJudge.judge(index, answer.end);
            ++answer.starts.at(static_cast<std::size_t>(exception.startClass));
            if (exception.startClass != StartClass::Compliant) {
                answer.exceptions.push_back(std::move(exception));
            }
        }
        auto anomalies = fold(answer.end, record, log.editions()).anomalies;
        if (log.strikeUnauthorised(index)) anomalies.push_back(AnomalyCode::Unauthorised);
        if (log.clockBack(index, question.knownAt)) anomalies.push_back(AnomalyCode::ClockBack);
        addAnomalies(answer, log, index, std::move(anomalies));
    }
    return answer;
}

}  // namespace rules
