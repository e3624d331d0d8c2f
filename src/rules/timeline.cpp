// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Verdicts over time: looked at again only where a record or time itself may have changed them; see
// timeline.h.
#include "rules/timeline.h"

#include <algorithm>
#include <tuple>

namespace rules {
namespace {

using logbook::Kind;

bool cutsOff(Kind kind) {
    return kind == Kind::UseStart || kind == Kind::Withdraw || kind == Kind::Retire;
}

}  // namespace

void Timeline::begin(const State& state) {
    noteEdition(state, m_period.from);
    for (const auto& [serial, device] : state.devices) look(serial, state, m_period.from);
}

void Timeline::folded(const logbook::Record& record, const Effect& effect) {
    const Kind kind = record.kind();
    if (kind == Kind::Adopt || kind == Kind::Notice) m_touchedAll = true;
    if (!record.device.empty()) m_touched.insert(record.device);
    for (const DeviceEvent& event : effect.events) m_touched.insert(event.device);
    const auto waiting = m_waiting.find(record.device);
    if (waiting != m_waiting.end() && effect.effective && cutsOff(kind)) {
        m_turnarounds.push_back(
            {record.device, waiting->second, record.at - waiting->second, true});
        m_waiting.erase(waiting);
    }
    if (effect.endedUse) m_waiting.insert_or_assign(record.device, record.at);
}

void Timeline::settle(Instant at, const State& state) {
    if (state.rulebook != m_rulebook) noteEdition(state, at);
    if (m_touchedAll) {
        for (const auto& [serial, device] : state.devices) look(serial, state, at);
    } else {
        for (const auto& serial : m_touched) look(serial, state, at);
    }
    m_touched.clear();
    m_touchedAll = false;
}

void Timeline::look(const std::string& serial, const State& state, Instant at) {
    const Device* device = state.device(serial);
    if (!device) return;
    const auto [found, isNew] = m_tracks.try_emplace(serial);
    Track& track = found->second;
    if (isNew) track.since = at;
    advance(track, at);
    const Assessment assessment = assess(state, *device, {at, std::nullopt, false, true, false});
    track.verdict = assessment.verdict;
    track.group = assessment.group;
    track.readyUntil = assessment.readyUntil;
    const auto waiting = m_waiting.find(serial);
    if (waiting == m_waiting.end() || track.verdict != Verdict::Ready) return;
    m_turnarounds.push_back({serial, waiting->second, at - waiting->second, false});
    m_waiting.erase(waiting);
}

// Time alone only ever ends a readiness.
void Timeline::advance(Track& track, Instant to) {
    if (track.verdict == Verdict::Ready && track.readyUntil && *track.readyUntil < to) {
        count(track, *track.readyUntil);
        track.verdict = Verdict::NotReady;
        track.readyUntil.reset();
    }
    count(track, to);
}

void Timeline::count(Track& track, Instant to) {
    const Instant from = std::max(track.since, m_period.countFrom);
    track.since = to;
    if (to <= from || track.verdict == Verdict::Retired) return;
    track.times.at(static_cast<std::size_t>(track.verdict)).ms += (to - from).ms;
    if (track.verdict == Verdict::Ready && track.group) m_ready[*track.group].push_back({from, to});
}

void Timeline::noteEdition(const State& state, Instant at) {
    m_rulebook = state.rulebook;
    for (auto& [group, changes] : m_pars) changes.push_back({at, std::nullopt});
    for (const Group& group : m_rulebook->groups) {
        if (group.par) m_pars[group.key].push_back({at, group.par});
    }
}

void Timeline::finish() {
    for (auto& [serial, track] : m_tracks) advance(track, m_period.to);
    for (const auto& [serial, from] : m_waiting) {
        m_turnarounds.push_back({serial, from, m_period.to - from, true});
    }
    m_waiting.clear();
}

std::vector<DeviceTime> Timeline::deviceTimes() const {
    std::vector<DeviceTime> all;
    for (const auto& [serial, track] : m_tracks) {
        const bool any = std::any_of(track.times.begin(), track.times.end(),
                                     [](Duration time) { return time.ms > 0; });
        if (any) all.push_back({serial, track.times});
    }
    return all;
}

std::vector<GroupTime> Timeline::groupTimes() const {
    std::vector<GroupTime> all;
    for (const auto& [group, pars] : m_pars) {
        bool ever = false;
        for (std::size_t place = 0; place < pars.size(); ++place) {
            const Instant until = place + 1 < pars.size() ? pars[place + 1].at : m_period.to;
            ever |= pars[place].par && until > std::max(pars[place].at, m_period.countFrom);
        }
        if (!ever) continue;
        const auto ready = m_ready.find(group);
        all.push_back(
            {group, belowPar(pars, ready == m_ready.end() ? std::vector<Span>{} : ready->second)});
    }
    return all;
}

// A sweep over the instants at which the number of ready units or the par changes.
Duration Timeline::belowPar(const std::vector<ParChange>& pars,
                            const std::vector<Span>& ready) const {
    std::map<Instant, int> changes;
    for (const Span& span : ready) {
        ++changes[span.from];
        --changes[span.to];
    }
    for (const ParChange& change : pars) changes[std::max(change.at, m_period.countFrom)];
    changes[m_period.to];
    Duration below;
    int count = 0;
    std::optional<int> par;
    std::size_t next = 0;
    for (auto change = changes.begin(); change != changes.end(); ++change) {
        count += change->second;
        while (next < pars.size() && pars[next].at <= change->first) par = pars[next++].par;
        const auto following = std::next(change);
        if (following == changes.end() || change->first >= m_period.to) break;
        const Instant until = std::min(following->first, m_period.to);
        if (par && count < *par && until > change->first) below.ms += (until - change->first).ms;
    }
    return below;
}

std::vector<Turnaround> Timeline::turnarounds() const {
    std::vector<Turnaround> all = m_turnarounds;
    std::sort(all.begin(), all.end(), [](const Turnaround& a, const Turnaround& b) {
        return std::tie(a.from, a.device) < std::tie(b.from, b.device);
    });
    return all;
}

}  // namespace rules
