// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Noting stays, turns and reprocessings in one pass; see trace_walk.h.
#include "rules/trace_walk.h"

#include "rules/findings.h"

#include <algorithm>
#include <tuple>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Kind;

bool changesParts(Kind kind) {
    return kind == Kind::Fit || kind == Kind::Remove || kind == Kind::Retire;
}

bool tellsNothing(const TraceSpan& span) {
    return !span.use && span.period.to == span.period.from;
}

void addSpan(std::vector<TraceSpan>& spans, TraceSpan span) {
    if (!spans.empty()) {
        TraceSpan& before = spans.back();
        const auto what = [](const TraceSpan& each) {
            return std::tie(each.location, each.use, each.paused);
        };
        if (what(before) == what(span)) return;
        before.period.to = span.period.from;
        if (tellsNothing(before)) spans.pop_back();
    }
    spans.push_back(std::move(span));
}

}  // namespace

void TraceWalk::run() {
    m_state.rulebook = m_log.firstEdition();
    for (std::size_t index = 0; index < m_log.records().size(); ++index) {
        const auto& record = m_log.records()[index];
        if (record.at > m_question.at) break;
        if (m_log.takesPart(index, m_question.knownAt)) take(record);
    }
}

void TraceWalk::take(const logbook::Record& record) {
    const auto candidates = candidatesOf(record);
    const Effect effect = fold(m_state, record, m_log.editions());
    for (const Candidate& candidate : candidates) {
        m_reprocesses.push_back(candidate.reprocess);
        m_reprocesses.back().counted = cyclesOf(candidate.reprocess) > candidate.cycles;
    }
    if (record.kind() == Kind::Adopt) {
        for (const auto& [serial, device] : m_state.devices) noteParts(serial, record);
    }
    if (changesParts(record.kind())) {
        noteParts(record.device, record);
        for (const DeviceEvent& event : effect.events) {
            if (event.device != record.device) noteParts(event.device, record);
        }
    }
    if (!record.device.empty()) noteTurn(record.device, record);
}

std::vector<TraceWalk::Candidate> TraceWalk::candidatesOf(const logbook::Record& record) const {
    std::vector<Candidate> candidates;
    const auto* reprocess = std::get_if<body::Reprocess>(&record.body);
    if (!reprocess) return candidates;
    const auto add = [&](PartKey key, const std::string& device) {
        const auto stay = openStay(device, key.first);
        TraceReprocess found{refOf(record), std::move(key), device, stay,
                             reprocess->load.value_or(""), false};
        const int cycles = cyclesOf(found);
        candidates.push_back({std::move(found), cycles});
    };
    for (const auto& position : reprocess->positions) {
        const auto stay = openStay(record.device, position);
        if (stay) add({position, std::string(m_stays[*stay].part.serial())}, record.device);
    }
    for (const auto& part : reprocess->parts) {
        const auto known = m_state.parts.find({part.position, part.serial});
        add({part.position, part.serial},
            known == m_state.parts.end() ? "" : known->second->device);
    }
    return candidates;
}

std::optional<std::size_t> TraceWalk::openStay(const std::string& device,
                                               const std::string& position) const {
    const auto open = m_open.find(device);
    if (open == m_open.end()) return std::nullopt;
    const auto stay = open->second.find(position);
    if (stay == open->second.end()) return std::nullopt;
    return stay->second;
}

int TraceWalk::cyclesOf(const TraceReprocess& reprocess) const {
    if (!reprocess.part.second.empty()) {
        const auto known = m_state.parts.find(reprocess.part);
        return known == m_state.parts.end() ? 0 : known->second->life.cycles;
    }
    const Device* device = m_state.device(reprocess.device);
    if (!device) return 0;
    const auto fitted = device->fitted.find(reprocess.part.first);
    return fitted == device->fitted.end() ? 0 : fitted->second.life.cycles;
}

void TraceWalk::noteParts(const std::string& serial, const logbook::Record& record) {
    const Device* device = m_state.device(serial);
    if (!device) return;
    auto& open = m_open[serial];
    for (auto each = open.begin(); each != open.end();) {
        TraceStay& stay = m_stays[each->second];
        const auto fitted = device->fitted.find(each->first);
        const bool stands = fitted != device->fitted.end() && fitted->second.fit == stay.fit;
        if (!stands) {
            stay.period.to = record.at;
            stay.ended = refOf(record);
        }
        each = stands ? std::next(each) : open.erase(each);
    }
    for (const auto& [position, part] : device->fitted) {
        if (!open.try_emplace(position, m_stays.size()).second) continue;
        TraceStay stay;
        stay.device = serial;
        stay.position = position;
        stay.part = part.attributes;
        stay.fit = part.fit;
        stay.period.from = part.fit.at;
        m_stays.push_back(std::move(stay));
    }
}

void TraceWalk::noteTurn(const std::string& serial, const logbook::Record& record) {
    const Device* device = m_state.device(serial);
    if (!device) return;
    Turn turn{refOf(record), device->location, std::nullopt, false, false};
    if (device->use) turn.use = device->use->start;
    turn.paused = device->use && device->use->paused;
    turn.concerned = m_notice && !device->retired && noticeConcerns(*device, m_notice->notice);
    auto& turns = m_turns[serial];
    const auto what = [](const Turn& each) {
        return std::tie(each.location, each.use, each.paused, each.concerned);
    };
    if (turns.empty() || what(turns.back()) != what(turn)) turns.push_back(std::move(turn));
}

std::vector<TraceSpan> TraceWalk::spansOf(const TraceStay& stay) const {
    std::vector<TraceSpan> spans;
    const auto found = m_turns.find(stay.device);
    if (found == m_turns.end()) return spans;
    const auto& turns = found->second;
    auto turn = std::upper_bound(
        turns.begin(), turns.end(), stay.fit,
        [](const RecordRef& fit, const Turn& each) { return fit < each.record; });
    if (turn != turns.begin()) --turn;
    for (; turn != turns.end(); ++turn) {
        if (stay.ended && turn->record > *stay.ended) break;
        const Instant from = std::max(turn->record.at, stay.period.from);
        addSpan(spans, {{from, stay.period.to}, turn->location, turn->use, turn->paused});
    }
    if (spans.size() > 1 && tellsNothing(spans.back())) spans.pop_back();
    return spans;
}

bool TraceWalk::concerned(const TraceStay& stay) const {
    if (!m_notice) return true;
    const auto found = m_turns.find(stay.device);
    if (found == m_turns.end()) return false;
    const auto& turns = found->second;
    for (std::size_t place = 0; place < turns.size(); ++place) {
        const bool before = place + 1 < turns.size() && turns[place + 1].record <= stay.fit;
        const bool after = stay.ended && turns[place].record > *stay.ended;
        if (!before && !after && turns[place].concerned) return true;
    }
    return false;
}

std::vector<TraceStay> TraceWalk::unitsConcerned() const {
    std::vector<TraceStay> stays;
    for (const auto& [serial, turns] : m_turns) {
        bool open = false;
        for (const Turn& turn : turns) {
            if (turn.concerned && !open) {
                TraceStay stay;
                stay.device = serial;
                stay.fit = turn.record;
                stay.period.from = turn.record.at;
                stays.push_back(std::move(stay));
            } else if (!turn.concerned && open) {
                stays.back().period.to = turn.record.at;
                stays.back().ended = turn.record;
            }
            open = turn.concerned;
        }
    }
    std::sort(stays.begin(), stays.end(),
              [](const TraceStay& a, const TraceStay& b) { return a.fit < b.fit; });
    return stays;
}

}  // namespace rules
