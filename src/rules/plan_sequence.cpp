// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The best order of a plan's tasks: a depth-first search over orders, with a lower bound and with
// what is known of each set of tasks already begun; see plan_order.h.
#include "rules/plan_order.h"

#include <algorithm>
#include <limits>
#include <unordered_map>

namespace rules {
namespace {

using Ms = std::int64_t;
using Mask = std::uint64_t;

constexpr Ms never = std::numeric_limits<Ms>::min() / 4;

// Where an order begun has come to. Each is no better the later it is, which is what lets one
// state stand for another that began the same tasks.
struct Progress {
    Mask begun = 0;
    Ms person = 0;             // free from
    Ms bench = 0;              // no check under way from
    Ms finish = 0;             // of all so far
    std::vector<Ms> finishes;  // by job; `never` while it has not begun
};

struct Step {
    std::size_t job;
    Ms start;
};

class Search {
public:
    Search(const Sequencing& sequencing, std::uint64_t nodes)
        : m_jobs(sequencing.jobs),
          m_from(sequencing.from.ms),
          m_nodes(nodes),
          m_tails(m_jobs.size(), 0) {
        computeTails();
    }

    Sequence run() {
        const Progress start = begin();
        const Ms bound = lowerBound(start);
        m_best = std::numeric_limits<Ms>::max();
        m_limit = m_best;
        improve(start);
        const bool exact = !m_exhausted;
        Sequence sequence;
        sequence.exact = exact;
        const Ms finish = m_best;
        if (exact) firstAmongBest(finish);
        sequence.tasks = timed();
        sequence.finish = {finish};
        sequence.bound = {exact ? finish : bound};
        return sequence;
    }

private:
    Progress begin() const {
        Progress progress;
        progress.person = progress.bench = progress.finish = m_from;
        progress.finishes.assign(m_jobs.size(), never);
        return progress;
    }

    bool isComplete(const Progress& progress) const { return progress.begun == fullMask(); }

    Mask fullMask() const {
        return m_jobs.size() == 64 ? ~Mask{0} : (Mask{1} << m_jobs.size()) - 1;
    }

    bool hasBegun(const Progress& progress, std::size_t job) const {
        return (progress.begun >> job & 1) != 0;
    }

    // The longest chain of tasks that can only follow the finish of each.
    void computeTails() {
        for (std::size_t round = 0; round < m_jobs.size(); ++round) {
            for (std::size_t job = 0; job < m_jobs.size(); ++job) {
                for (const std::size_t before : m_jobs[job].predecessors) {
                    Ms wait = 0;
                    for (const Lag& lag : m_jobs[job].lags) {
                        if (lag.task == before) wait = std::max(wait, lag.wait.ms);
                    }
                    const Ms tail = wait + m_jobs[job].takes.ms + m_tails[job];
                    m_tails[before] = std::max(m_tails[before], tail);
                }
            }
        }
    }

    bool canBegin(const Progress& progress, std::size_t job) const {
        if (hasBegun(progress, job)) return false;
        const auto& needs = m_jobs[job].predecessors;
        const bool met = std::all_of(needs.begin(), needs.end(), [&](std::size_t before) {
            return hasBegun(progress, before);
        });
        const bool groupFirst = m_jobs.front().task.kind == TaskKind::Group;
        return met && (job == 0 || !groupFirst || hasBegun(progress, 0));
    }

    // As early as what has begun allows.
    Ms earliest(const Progress& progress, std::size_t index) const {
        const Job& job = m_jobs[index];
        Ms start = progress.person;
        if (job.alone || job.meansHandsOff) start = std::max(start, progress.bench);
        if (job.release) start = std::max(start, job.release->ms);
        for (const std::size_t before : job.predecessors) {
            start = std::max(start, progress.finishes[before]);
        }
        for (const Lag& lag : job.lags) {
            if (hasBegun(progress, lag.task)) {
                start = std::max(start, progress.finishes[lag.task] + lag.wait.ms);
            }
        }
        return start;
    }

    Progress after(const Progress& progress, std::size_t index) const {
        const Job& job = m_jobs[index];
        Progress next = progress;
        const Ms start = earliest(progress, index);
        const Ms finish = start + job.takes.ms;
        next.begun |= Mask{1} << index;
        next.person = start + job.attended.ms;
        if (job.alone) next.bench = finish;
        next.finish = std::max(next.finish, finish);
        next.finishes[index] = finish;
        return next;
    }

    // Each task still to begin with its tail; the person's time; the bench's time from each
    // release.
    Ms lowerBound(const Progress& progress) const {
        Ms bound = progress.finish;
        Ms attended = 0;
        std::vector<std::pair<Ms, Ms>> onBench;
        for (std::size_t index = 0; index < m_jobs.size(); ++index) {
            const Job& job = m_jobs[index];
            if (hasBegun(progress, index)) {
                if (m_tails[index] > 0 && waitsOpen(progress, index)) {
                    bound = std::max(bound, progress.finishes[index]);
                }
                continue;
            }
            const Ms start = earliestKnown(progress, index);
            bound = std::max(bound, start + job.takes.ms + m_tails[index]);
            attended += job.attended.ms;
            if (job.alone || job.meansHandsOff) onBench.emplace_back(start, job.takes.ms);
        }
        bound = std::max(bound, progress.person + attended);
        std::sort(onBench.begin(), onBench.end());
        Ms load = 0;
        for (auto entry = onBench.rbegin(); entry != onBench.rend(); ++entry) {
            load += entry->second;
            bound = std::max(bound, entry->first + load);
        }
        return bound;
    }

    bool waitsOpen(const Progress& progress, std::size_t index) const {
        return std::any_of(m_jobs.begin(), m_jobs.end(), [&](const Job& job) {
            const auto place = static_cast<std::size_t>(&job - m_jobs.data());
            return !hasBegun(progress, place) &&
                   std::find(job.predecessors.begin(), job.predecessors.end(), index) !=
                       job.predecessors.end();
        });
    }

    // Like earliest(), but sound for a task whose predecessors have not all begun.
    Ms earliestKnown(const Progress& progress, std::size_t index) const {
        const Job& job = m_jobs[index];
        Ms start = progress.person;
        if (job.alone || job.meansHandsOff) start = std::max(start, progress.bench);
        if (job.release) start = std::max(start, job.release->ms);
        for (const std::size_t before : job.predecessors) {
            start = std::max(
                start, hasBegun(progress, before) ? progress.finishes[before] : progress.person);
        }
        for (const Lag& lag : job.lags) {
            if (hasBegun(progress, lag.task)) {
                start = std::max(start, progress.finishes[lag.task] + lag.wait.ms);
            }
        }
        return start;
    }

    // What of a progress still matters to the tasks that have not begun, comparable part by part.
    std::vector<Ms> signature(const Progress& progress) const {
        std::vector<Ms> parts{progress.person, progress.bench, progress.finish};
        for (std::size_t index = 0; index < m_jobs.size(); ++index) {
            if (!hasBegun(progress, index)) continue;
            const bool late = progress.finishes[index] > progress.person;
            parts.push_back(late || lagsOpen(progress, index) ? progress.finishes[index] : never);
        }
        return parts;
    }

    bool lagsOpen(const Progress& progress, std::size_t index) const {
        for (std::size_t job = 0; job < m_jobs.size(); ++job) {
            if (hasBegun(progress, job)) continue;
            for (const Lag& lag : m_jobs[job].lags) {
                const bool waits = progress.finishes[index] + lag.wait.ms > progress.person;
                if (lag.task == index && waits) return true;
            }
        }
        return false;
    }

    // Whether an order that began the same tasks was no worse in any part; else remembers this one.
    bool isDominated(const Progress& progress) {
        auto parts = signature(progress);
        auto& known = m_known[progress.begun];
        for (const auto& other : known) {
            const bool better = std::equal(other.begin(), other.end(), parts.begin(), parts.end(),
                                           [](Ms a, Ms b) { return a <= b; });
            if (better) return true;
        }
        std::erase_if(known, [&parts](const std::vector<Ms>& other) {
            return std::equal(parts.begin(), parts.end(), other.begin(), other.end(),
                              [](Ms a, Ms b) { return a <= b; });
        });
        known.push_back(std::move(parts));
        return false;
    }

    // The tasks that can begin now, by (start, kind, name).
    std::vector<Step> candidates(const Progress& progress) const {
        std::vector<Step> steps;
        for (std::size_t job = 0; job < m_jobs.size(); ++job) {
            if (canBegin(progress, job)) steps.push_back({job, earliest(progress, job)});
        }
        std::stable_sort(steps.begin(), steps.end(),
                         [](const Step& a, const Step& b) { return a.start < b.start; });
        return steps;
    }

    // Finds the least finish, and an order that has it.
    void improve(const Progress& progress) {
        if (isComplete(progress)) {
            if (progress.finish < m_best) {
                m_best = progress.finish;
                m_bestOrder = m_order;
            }
            return;
        }
        if (spent() || lowerBound(progress) >= m_best || isDominated(progress)) return;
        for (const Step& step : candidates(progress)) {
            m_order.push_back(step.job);
            improve(after(progress, step.job));
            m_order.pop_back();
            if (m_exhausted) return;
        }
    }

    // The first by (start, kind, name), task by task, of all orders that finish by `finish`: at
    // each place the first task from which the rest can still be done in time.
    void firstAmongBest(Ms finish) {
        m_known.clear();
        m_limit = finish;
        m_order.clear();
        if (complete(begin())) m_bestOrder = m_order;
    }

    bool complete(const Progress& progress) {
        if (isComplete(progress)) return true;
        if (lowerBound(progress) > m_limit || isDominated(progress)) return false;
        for (const Step& step : candidates(progress)) {
            m_order.push_back(step.job);
            if (complete(after(progress, step.job))) return true;
            m_order.pop_back();
        }
        return false;
    }

    bool spent() {
        if (m_jobs.size() <= exactTasks || m_best == std::numeric_limits<Ms>::max()) return false;
        if (m_nodes == 0) m_exhausted = true;
        if (m_nodes > 0) --m_nodes;
        return m_exhausted;
    }

    std::vector<Task> timed() const {
        std::vector<Task> tasks;
        Progress progress = begin();
        for (const std::size_t index : m_bestOrder) {
            const Job& job = m_jobs[index];
            Task task = job.task;
            task.start = {earliest(progress, index)};
            task.attended = task.start + job.attended;
            task.finish = task.start + job.takes;
            task.notBefore = job.release;
            for (const Lag& lag : job.lags) {
                if (!hasBegun(progress, lag.task)) continue;
                const Instant until = Instant{progress.finishes[lag.task]} + lag.wait;
                task.notBefore = task.notBefore ? std::max(*task.notBefore, until) : until;
            }
            if (task.notBefore && task.notBefore->ms <= m_from) task.notBefore.reset();
            tasks.push_back(std::move(task));
            progress = after(progress, index);
        }
        return tasks;
    }

    const std::vector<Job>& m_jobs;
    Ms m_from;
    std::uint64_t m_nodes;
    std::vector<Ms> m_tails;
    std::unordered_map<Mask, std::vector<std::vector<Ms>>> m_known;
    std::vector<std::size_t> m_order;
    std::vector<std::size_t> m_bestOrder;
    Ms m_best = 0;
    Ms m_limit = 0;
    bool m_exhausted = false;
};

}  // namespace

Sequence bestSequence(const Sequencing& sequencing, std::uint64_t nodes) {
    if (sequencing.jobs.empty()) return {{}, sequencing.from, true, sequencing.from};
    return Search(sequencing, nodes).run();
}

}  // namespace rules
