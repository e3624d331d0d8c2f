// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random crews, and their best outcome by trying everything; see crew_world.h.
#include "rules/crew_world.h"

#include <algorithm>
#include <sstream>
#include <unordered_set>

namespace support {

RandomCrew::RandomCrew(std::uint32_t seed) : m_random(seed) {
    const int count = 1 + m_random.below(3);
    for (int left = 6; static_cast<int>(m_units.size()) < count && left > 0;) {
        // Now and then one just like another.
        const bool alike = !m_units.empty() && m_random.chance(25) &&
                           static_cast<int>(m_units.back().jobs.size()) <= left;
        m_units.push_back(alike ? m_units.back() : anyUnit(std::min(left, 4)));
        left -= static_cast<int>(m_units.back().jobs.size());
    }
    m_wanted = 1 + static_cast<std::size_t>(m_random.below(static_cast<int>(m_units.size())));
    m_people = 1 + static_cast<std::size_t>(m_random.below(3));
}

Sequencing RandomCrew::anyUnit(int mostJobs) {
    const int count = 1 + m_random.below(mostJobs);
    std::vector<Job> jobs;
    while (static_cast<int>(jobs.size()) < count) jobs.push_back(anyJob(jobs.size(), jobs));
    return unit(std::move(jobs));
}

Job RandomCrew::anyJob(std::size_t index, const std::vector<Job>& before) {
    const auto takes = static_cast<rules::Ms>(m_random.below(4));
    const int choice = m_random.below(7);
    Job made = job(takes);
    if (choice == 0 && index == 0) {
        made = job(0);
        made.task.kind = TaskKind::Group;
        return made;
    }
    if (choice < 3) made = fit(takes);
    if (choice == 3 || choice == 4) {
        made = check(takes, static_cast<rules::Ms>(m_random.below(static_cast<int>(takes) + 1)));
    }
    if (choice == 5) {
        made.attended = {static_cast<rules::Ms>(m_random.below(static_cast<int>(takes) + 1))};
    }
    if (m_random.chance(15)) made.release = logbook::Instant{m_random.below(6)};
    for (std::size_t other = 0; other < index; ++other) {
        const bool after = m_random.chance(30);
        if (after) made.predecessors.push_back(other);
        const bool isFit = before[other].task.kind == TaskKind::Fit;
        if (made.alone && isFit && m_random.chance(50)) {
            made.lags.push_back({other, {m_random.below(4)}});
        }
    }
    return made;
}

std::string RandomCrew::text() const {
    std::ostringstream out;
    out << m_wanted << " wanted of " << m_people << " people\n";
    for (const Sequencing& each : m_units) {
        out << "unit\n";
        for (const Job& one : each.jobs) {
            out << "  " << name(one.task.kind) << " " << one.takes.ms << " attended "
                << one.attended.ms;
            if (one.release) out << " from " << one.release->ms;
            for (const auto before : one.predecessors) out << " after " << before;
            for (const auto& lag : one.lags) out << " wait " << lag.task << "+" << lag.wait.ms;
            out << "\n";
        }
    }
    return out.str();
}

namespace {

constexpr rules::Ms idle = -1;

class Clock {
public:
    Clock(const Units& units, std::size_t people, std::size_t wanted)
        : m_units(units), m_people(people), m_wanted(wanted) {
        for (const Sequencing& each : units) m_starts.emplace_back(each.jobs.size(), idle);
    }

    rules::Outcome run() {
        tick(0);
        return m_best;
    }

private:
    void tick(rules::Ms now) {
        if (!m_best.ready.empty() && now > m_best.finish()) return;
        if (!m_seen.insert(trace(now)).second) return;
        if (finished()) return;
        for (std::size_t unit = 0; unit < m_units.size(); ++unit) {
            for (std::size_t index = 0; index < m_units[unit].jobs.size(); ++index) {
                if (!can(unit, index, now)) continue;
                m_starts[unit][index] = now;
                tick(now);
                m_starts[unit][index] = idle;
            }
        }
        tick(now + 1);
    }

    // Where the clock has come to and how.
    std::string trace(rules::Ms now) const {
        std::string text(1, static_cast<char>(now));
        for (const auto& starts : m_starts) {
            for (const rules::Ms start : starts) text += static_cast<char>(start);
        }
        return text;
    }

    rules::Ms end(std::size_t unit, std::size_t index) const {
        return m_starts[unit][index] + m_units[unit].jobs[index].takes.ms;
    }

    bool isOver(std::size_t unit, std::size_t index, rules::Ms now) const {
        return m_starts[unit][index] != idle && end(unit, index) <= now;
    }

    std::size_t busy(rules::Ms now) const {
        std::size_t count = 0;
        for (std::size_t unit = 0; unit < m_units.size(); ++unit) {
            for (std::size_t index = 0; index < m_units[unit].jobs.size(); ++index) {
                const auto start = m_starts[unit][index];
                const auto attended = m_units[unit].jobs[index].attended.ms;
                count += start != idle && now < start + attended;
            }
        }
        return count;
    }

    bool can(std::size_t unit, std::size_t index, rules::Ms now) const {
        const auto& jobs = m_units[unit].jobs;
        const Job& wanted = jobs[index];
        if (m_starts[unit][index] != idle || busy(now) >= m_people) return false;
        if (wanted.release && wanted.release->ms > now) return false;
        const bool groupFirst = jobs.front().task.kind == TaskKind::Group && index > 0;
        if (groupFirst && m_starts[unit].front() == idle) return false;
        for (const auto before : wanted.predecessors) {
            if (!isOver(unit, before, now)) return false;
        }
        for (const auto& lag : wanted.lags) {
            const bool begun = m_starts[unit][lag.task] != idle;
            if (begun && end(unit, lag.task) + lag.wait.ms > now) return false;
        }
        for (std::size_t other = 0; other < jobs.size(); ++other) {
            if (m_starts[unit][other] == idle || isOver(unit, other, now)) continue;
            if (jobs[other].alone && (wanted.alone || wanted.meansHandsOff)) return false;
            if (jobs[other].meansHandsOff && wanted.alone) return false;
        }
        return true;
    }

    // Whether as many as are wanted have all their jobs begun; then the outcome is known.
    bool finished() {
        rules::Outcome outcome;
        for (std::size_t unit = 0; unit < m_units.size(); ++unit) {
            const auto& starts = m_starts[unit];
            if (std::find(starts.begin(), starts.end(), idle) != starts.end()) continue;
            rules::Ms ready = 0;
            for (std::size_t index = 0; index < starts.size(); ++index) {
                ready = std::max(ready, end(unit, index));
                outcome.attended += m_units[unit].jobs[index].attended.ms;
            }
            outcome.ready.push_back(ready);
        }
        if (outcome.ready.size() < m_wanted) return false;
        std::sort(outcome.ready.begin(), outcome.ready.end());
        if (m_best.ready.empty() || outcome < m_best) m_best = outcome;
        return true;
    }

    const Units& m_units;
    std::size_t m_people, m_wanted;
    std::vector<std::vector<rules::Ms>> m_starts;
    std::unordered_set<std::string> m_seen;
    rules::Outcome m_best;
};

}  // namespace

rules::Outcome outcomeByClock(const Units& units, std::size_t people, std::size_t wanted) {
    return Clock(units, people, wanted).run();
}

}  // namespace support
