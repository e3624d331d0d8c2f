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

// The zone of the last edition known, in which the period is told, and when the first was adopted.
struct KnownEditions {
    const Zone* zone = nullptr;
    Instant firstAdopted{};
};

KnownEditions knownEditions(const Log& log, Instant knownAt) {
    KnownEditions known;
    State state;
    state.rulebook = log.firstEdition();
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (record.kind() != Kind::Adopt && record.kind() != Kind::Person) continue;
        if (!log.takesPart(index, knownAt)) continue;
        fold(state, record, log.editions());
        if (state.adopted && !known.zone) known.firstAdopted = state.adopted->at;
        if (state.adopted) known.zone = state.rulebook->zone.get();
    }
    return known;
}

void setPeriod(MonthAnswer& answer, const Zone& zone, Instant at) {
    const Day first{answer.month / std::chrono::day{1}};
    const Day next{(answer.month + std::chrono::months{1}) / std::chrono::day{1}};
    answer.from = zone.startOf(first);
    answer.to = std::max(answer.from, std::min(zone.startOf(next), at));
}

void addAnomalies(MonthAnswer& answer, std::size_t index, std::vector<AnomalyCode> codes) {
    std::sort(codes.begin(), codes.end(),
              [](AnomalyCode a, AnomalyCode b) { return name(a) < name(b); });
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

// One pass over the log up to the end of the period.
class MonthPass {
public:
    MonthPass(const Log& log, Instant knownAt, MonthAnswer& answer, Instant countFrom)
        : m_log(log),
          m_knownAt(knownAt),
          m_answer(answer),
          m_startJudge(log, knownAt),
          m_timeline({answer.from, answer.to, countFrom}) {
        answer.end.rulebook = log.firstEdition();
    }

    void run() {
        const auto& records = m_log.records();
        for (std::size_t index = 0; index < records.size(); ++index) {
            const auto& record = records[index];
            if (record.at >= m_answer.to) break;
            if (!m_inPeriod && record.at >= m_answer.from) enterPeriod();
            if (m_pending && *m_pending != record.at) settle();
            if (m_log.takesPart(index, m_knownAt)) take(index);
        }
        if (!m_inPeriod) enterPeriod();
        if (m_pending) settle();
        m_timeline.finish();
        m_answer.devices = m_timeline.deviceTimes();
        m_answer.groups = m_timeline.groupTimes();
        m_answer.turnarounds = m_timeline.turnarounds();
    }

private:
    void enterPeriod() {
        m_inPeriod = true;
        m_timeline.begin(m_answer.end);
    }

    void settle() {
        m_timeline.settle(*m_pending, m_answer.end);
        m_pending.reset();
    }

    void take(std::size_t index) {
        const auto& record = m_log.records()[index];
        if (m_inPeriod && isCountedStart(m_answer.end, record)) {
            StartException exception = m_startJudge.judge(index, m_answer.end);
            ++m_answer.starts.at(static_cast<std::size_t>(exception.startClass));
            if (exception.startClass != StartClass::Compliant) {
                m_answer.exceptions.push_back(std::move(exception));
            }
        }
        Effect effect = fold(m_answer.end, record, m_log.editions());
        if (!m_inPeriod) return;
        m_timeline.folded(record, effect);
        m_pending = record.at;
        if (m_log.strikeUnauthorised(index)) effect.anomalies.push_back(AnomalyCode::Unauthorised);
        if (m_log.clockBack(index, m_knownAt)) effect.anomalies.push_back(AnomalyCode::ClockBack);
        addAnomalies(m_answer, index, std::move(effect.anomalies));
    }

    const Log& m_log;
    Instant m_knownAt;
    MonthAnswer& m_answer;
    StartJudge m_startJudge;
    Timeline m_timeline;
    bool m_inPeriod = false;
    std::optional<Instant> m_pending;  // the instant whose records are being folded
};

}  // namespace

std::string_view name(StartClass startClass) {
    constexpr std::array<std::string_view, 5> names{
        "compliant", "compliant_late", "compliant_waived", "emergency", "noncompliant"};
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
    const auto first = log.firstEdition();
    const KnownEditions known = first ? knownEditions(log, question.knownAt) : KnownEditions{};
    if (!known.zone) return tl::make_unexpected(LogFault{LogFault::Code::NoEdition, {}, {}});
    MonthAnswer answer;
    answer.month = question.month;
    const auto end = log.endOfKnowledge(question.knownAt);
    const Zone& zone = question.zone ? *question.zone : *known.zone;
    setPeriod(answer, zone, question.at ? *question.at : end.value_or(Instant{}));
    MonthPass(log, question.knownAt, answer, std::max(answer.from, known.firstAdopted)).run();
    return answer;
}

}  // namespace rules
