// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Choosing, from all that a walk over the log noted, what was asked for; see trace.h.
#include "rules/trace.h"

#include "rules/findings.h"
#include "rules/trace_walk.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace rules {
namespace {

using logbook::Kind;

// The notice as it reads by then: what it says once cancelled is still looked for.
std::optional<KnownNotice> noticeAt(const Log& log, const TraceQuestion& question) {
    State state;
    state.rulebook = log.firstEdition();
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (record.at > question.at) break;
        const bool bears = record.kind() == Kind::Adopt || record.kind() == Kind::Person ||
                           record.kind() == Kind::Notice;
        if (bears && log.takesPart(index, question.knownAt)) fold(state, record, log.editions());
    }
    const auto found = state.notices.find(question.key);
    if (found == state.notices.end()) return std::nullopt;
    return found->second;
}

PartKey keyOf(const TraceStay& stay) {
    return {stay.position, std::string(stay.part.serial())};
}

// A reprocessing, and whether it is of the load asked for.
struct Cleaned {
    RecordRef record;
    bool asked = false;
};

LoadSide sideOf(const TraceStay& stay, const std::vector<Cleaned>& cleaned) {
    const auto within = [&](const Cleaned& each) {
        return each.asked && each.record > stay.fit && (!stay.ended || each.record < *stay.ended);
    };
    if (std::any_of(cleaned.begin(), cleaned.end(), within)) return LoadSide::Through;
    std::optional<LoadSide> side;
    for (const Cleaned& each : cleaned) {
        if (each.record > stay.fit) break;
        if (each.asked) side = LoadSide::Since;
        if (!each.asked && side) side = LoadSide::Later;
    }
    if (side) return *side;
    for (const Cleaned& each : cleaned) {
        if (each.asked) break;
        if (stay.ended && each.record > *stay.ended) return LoadSide::Earlier;
    }
    return LoadSide::Before;
}

class Chooser {
public:
    Chooser(const TraceWalk& walk, const TraceQuestion& question, const KnownNotice* notice)
        : m_walk(walk), m_question(question), m_notice(notice) {
        for (std::size_t index = 0; index < walk.stays().size(); ++index) {
            const TraceStay& stay = walk.stays()[index];
            if (!states(stay)) continue;
            m_stating.insert(index);
            if (!stay.part.serial().empty()) m_parts.insert(keyOf(stay));
        }
        for (const TraceReprocess& reprocess : walk.reprocesses()) {
            if (!asksFor(reprocess)) continue;
            if (!reprocess.part.second.empty()) {
                m_parts.insert(reprocess.part);
            } else {
                m_stating.insert(*reprocess.stay);
            }
        }
    }

    Trace choose() {
        Trace trace;
        for (std::size_t index = 0; index < m_walk.stays().size(); ++index) addStay(trace, index);
        if (m_notice && !namesPart(m_notice->notice.match)) addUnits(trace);
        for (const TraceReprocess& reprocess : m_walk.reprocesses()) addReprocess(trace, reprocess);
        if (m_question.by == TraceBy::Load) addSides(trace);
        addParts(trace);
        trace.end = m_walk.end();
        return trace;
    }

private:
    // Whether this very fit states what was asked for.
    [[nodiscard]] bool states(const TraceStay& stay) const {
        switch (m_question.by) {
            case TraceBy::Lot: return stay.part.text("lot") == m_question.key;
            case TraceBy::Serial: return isSerial(stay.part.serial(), m_question.key);
            case TraceBy::Load: return false;
            case TraceBy::Notice:
                return m_notice && namesPart(m_notice->notice.match) &&
                       noticeMatchesPart(m_notice->notice.match, stay.position, stay.part) &&
                       m_walk.concerned(stay);
        }
        return false;
    }

    [[nodiscard]] bool asksFor(const TraceReprocess& reprocess) const {
        const std::string& key = m_question.key;
        if (m_question.by == TraceBy::Load) return reprocess.load == key;
        return m_question.by == TraceBy::Serial && isSerial(reprocess.part.second, key);
    }

    void addStay(Trace& trace, std::size_t index) {
        const TraceStay& found = m_walk.stays()[index];
        const bool stating = m_stating.contains(index);
        if (!stating && (found.part.serial().empty() || !m_parts.contains(keyOf(found)))) return;
        m_chosen.emplace(index, trace.stays.size());
        TraceStay& stay = trace.stays.emplace_back(found);
        stay.spans = m_walk.spansOf(stay);
        stay.statedElsewhere = !stating && m_question.by != TraceBy::Load;
        stay.done = doneSince(stay);
    }

    void addUnits(Trace& trace) const {
        for (TraceStay& stay : m_walk.unitsConcerned()) {
            stay.spans = m_walk.spansOf(stay);
            stay.done = doneSince(stay);
            trace.stays.push_back(std::move(stay));
        }
    }

    [[nodiscard]] std::optional<RecordRef> doneSince(const TraceStay& stay) const {
        const Device* device = m_walk.end().device(stay.device);
        if (!m_notice || !device) return std::nullopt;
        const auto done = device->noticesDone.find(m_notice->notice.key);
        const bool none = done == device->noticesDone.end() || done->second < m_notice->record;
        if (none || (!stay.position.empty() && done->second < stay.fit)) return std::nullopt;
        return done->second;
    }

    void addReprocess(Trace& trace, const TraceReprocess& found) const {
        const auto chosen = found.stay ? m_chosen.find(*found.stay) : m_chosen.end();
        const bool isPart = !found.part.second.empty() && m_parts.contains(found.part);
        if (!isPart && chosen == m_chosen.end()) return;
        TraceReprocess& reprocess = trace.reprocesses.emplace_back(found);
        reprocess.stay.reset();
        if (chosen != m_chosen.end()) reprocess.stay = chosen->second;
    }

    void addSides(Trace& trace) const {
        std::map<PartKey, std::vector<Cleaned>> ofParts;
        std::map<std::size_t, std::vector<Cleaned>> ofStays;  // of parts without a serial
        for (const TraceReprocess& reprocess : trace.reprocesses) {
            const Cleaned cleaned{reprocess.record, asksFor(reprocess)};
            if (!cleaned.asked && !reprocess.counted) continue;
            if (!reprocess.part.second.empty()) {
                ofParts[reprocess.part].push_back(cleaned);
            } else {
                ofStays[*reprocess.stay].push_back(cleaned);
            }
        }
        for (std::size_t index = 0; index < trace.stays.size(); ++index) {
            TraceStay& stay = trace.stays[index];
            stay.side = sideOf(
                stay, stay.part.serial().empty() ? ofStays[index] : ofParts[keyOf(stay)]);
        }
    }

    void addParts(Trace& trace) const {
        std::map<PartKey, TracePart> parts;
        for (const PartKey& key : m_parts) parts[key].key = key;
        for (std::size_t index = 0; index < trace.stays.size(); ++index) {
            const auto part = parts.find(keyOf(trace.stays[index]));
            if (part == parts.end()) continue;
            part->second.lastStay = index;
            if (!trace.stays[index].period.to) part->second.standsIn = index;
        }
        for (auto& [key, part] : parts) {
            const auto known = m_walk.end().parts.find(key);
            if (known != m_walk.end().parts.end()) part.life = known->second->life;
            trace.parts.push_back(std::move(part));
        }
    }

    const TraceWalk& m_walk;
    const TraceQuestion& m_question;
    const KnownNotice* m_notice;
    std::set<std::size_t> m_stating;                // stays that state what was asked for
    std::set<PartKey> m_parts;                      // parts with a serial
    std::map<std::size_t, std::size_t> m_chosen;    // stays of the walk by their place in the trace
};

}  // namespace

std::string_view name(TraceBy by) {
    constexpr std::array<std::string_view, 4> names{"lot", "serial", "load", "notice"};
    return names.at(static_cast<std::size_t>(by));
}

std::string_view name(LoadSide side) {
    constexpr std::array<std::string_view, 5> names{"earlier", "before", "through", "since",
                                                    "later"};
    return names.at(static_cast<std::size_t>(side));
}

bool isSerial(std::string_view serial, std::string_view wanted) {
    if (serial == wanted) return true;
    const auto blank = serial.find(' ');
    return blank != std::string_view::npos && serial.substr(blank + 1) == wanted;
}

Trace trace(const Log& log, const TraceQuestion& question) {
    std::optional<KnownNotice> notice;
    if (question.by == TraceBy::Notice) notice = noticeAt(log, question);
    const bool cancelled = notice && notice->notice.cancelled;
    if (notice) notice->notice.cancelled = false;
    TraceWalk walk(log, question, notice ? &*notice : nullptr);
    walk.run();
    Trace answer = Chooser(walk, question, notice ? &*notice : nullptr).choose();
    if (notice) notice->notice.cancelled = cancelled;
    answer.question = question;
    answer.notice = std::move(notice);
    return answer;
}

}  // namespace rules
