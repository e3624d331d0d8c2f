// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The best order of a plan's tasks. Orders are followed side by side, task by task; of those that
// have begun the same tasks only the ones that no other betters go on. First a few, which gives a
// good order soon, then all that could finish earlier than it. See plan_order.h.
#include "rules/plan_order.h"
#include "rules/plan_progress.h"

#include <algorithm>
#include <iterator>
#include <limits>
#include <optional>
#include <unordered_map>

namespace rules {
namespace {

constexpr Ms none = std::numeric_limits<Ms>::max();
constexpr std::size_t unlimited = std::numeric_limits<std::size_t>::max();

using Jobs = std::vector<bool>;

struct Beginning {
    Progress progress;
    Jobs begun;
    Outlook outlook;
    std::size_t trace = 0;  // in Search::m_traces

    // A first number, and those of the jobs that have not begun.
    std::vector<Ms> numbers(Ms first, const std::vector<Ms>& byJob) const {
        std::vector<Ms> all{first};
        for (std::size_t job = 0; job < begun.size(); ++job) {
            if (!begun[job]) all.push_back(byJob[job]);
        }
        return all;
    }
};

// Orders that began the same jobs, as the numbers by which they are compared. One can be completed
// no later than another if each job that has not begun is ready in it by the time that it can start
// in the other.
class Rivals {
public:
    // Whether one of them can be completed no later.
    bool better(const Beginning& beginning) const {
        const auto heads = beginning.numbers(beginning.outlook.bound, beginning.outlook.heads);
        for (std::size_t begin = 0; begin < m_numbers.size(); begin += heads.size()) {
            if (isNowhereGreater(&m_numbers[begin], heads.data(), heads.size())) return true;
        }
        return false;
    }

    // Takes it in, for those that it betters in all comparisons: their places are added to `freed`.
    void add(const Beginning& beginning, std::size_t place, std::vector<std::size_t>& freed) {
        const auto ready = beginning.numbers(beginning.progress.finish, beginning.outlook.ready);
        const auto width = static_cast<std::ptrdiff_t>(ready.size());
        std::size_t kept = 0;
        for (std::size_t rival = 0; rival < m_places.size(); ++rival) {
            const auto other = m_numbers.begin() + static_cast<std::ptrdiff_t>(rival) * width;
            if (isNowhereGreater(ready.data(), &*other, ready.size())) {
                freed.push_back(m_places[rival]);
                continue;
            }
            m_places[kept] = m_places[rival];
            std::copy_n(other, width,
                        m_numbers.begin() + static_cast<std::ptrdiff_t>(kept) * width);
            ++kept;
        }
        m_places.resize(kept);
        m_numbers.resize(kept * ready.size());
        m_places.push_back(place);
        m_numbers.insert(m_numbers.end(), ready.begin(), ready.end());
    }

private:
    static bool isNowhereGreater(const Ms* a, const Ms* b, std::size_t count) {
        return std::equal(a, a + count, b, [](Ms x, Ms y) { return x <= y; });
    }

    std::vector<Ms> m_numbers;  // one after another
    std::vector<std::size_t> m_places;
};

// Orders begun; of those that began the same jobs only the ones that no other betters.
class Beginnings {
public:
    // Whether it is worth following.
    bool add(Beginning beginning) {
        auto& rivals = m_rivals[beginning.begun];
        if (rivals.better(beginning)) return false;
        const std::size_t place = m_free.empty() ? m_all.size() : m_free.back();
        if (m_free.empty()) {
            m_all.emplace_back();
        } else {
            m_free.pop_back();
        }
        rivals.add(beginning, place, m_free);
        m_all[place] = std::move(beginning);
        return true;
    }

    // Those that promise most come first.
    std::vector<Beginning> take() && {
        std::sort(m_free.rbegin(), m_free.rend());
        for (const std::size_t place : m_free) {
            std::swap(m_all[place], m_all.back());
            m_all.pop_back();
        }
        std::sort(m_all.begin(), m_all.end(), [](const Beginning& a, const Beginning& b) {
            if (a.outlook.bound != b.outlook.bound) return a.outlook.bound < b.outlook.bound;
            if (a.progress.person != b.progress.person)
                return a.progress.person < b.progress.person;
            return a.trace < b.trace;
        });
        return std::move(m_all);
    }

private:
    std::unordered_map<Jobs, Rivals> m_rivals;
    std::vector<Beginning> m_all;
    std::vector<std::size_t> m_free;
};

// Orders begun that cannot be completed in time.
class Late {
public:
    bool contains(const Beginning& beginning) const {
        const auto rivals = m_rivals.find(beginning.begun);
        return rivals != m_rivals.end() && rivals->second.better(beginning);
    }
    void add(const Beginning& beginning) {
        auto& rivals = m_rivals[beginning.begun];
        std::vector<std::size_t> freed;
        if (!rivals.better(beginning)) rivals.add(beginning, 0, freed);
    }

private:
    std::unordered_map<Jobs, Rivals> m_rivals;
};

// What may be looked at; of more jobs a step costs more.
std::uint64_t stepsFor(std::size_t jobs, std::uint64_t nodes) {
    return jobs <= exactTasks ? unlimited : nodes * exactTasks / jobs;
}

// How many orders are followed side by side: first, and then, until there is proof.
std::vector<std::size_t> widthsFor(std::size_t jobs, std::uint64_t steps) {
    if (jobs <= exactTasks) return {30, 300, unlimited};
    return {30, std::max<std::size_t>(steps / (jobs * jobs), 30)};
}

class Search {
public:
    Search(const Sequencing& sequencing, std::uint64_t nodes)
        : m_progression(sequencing),
          m_from(sequencing.from.ms),
          m_steps(stepsFor(sequencing.jobs.size(), nodes)),
          m_widths(widthsFor(sequencing.jobs.size(), m_steps)) {}

    Sequence run() {
        const Beginning start = startingWith(m_progression.begin(), 0);
        bool proved = false;
        for (const std::size_t width : m_widths) {
            if (!proved) proved = improve(start, width) || m_best == start.outlook.bound;
        }
        m_late = {};
        const bool isFirst = findFirstAmongBest(start);
        Sequence sequence;
        sequence.exact = proved && isFirst;
        sequence.finish = {m_best};
        sequence.bound = {proved ? m_best : start.outlook.bound};
        sequence.tasks = timed();
        return sequence;
    }

private:
    using Order = std::vector<std::size_t>;  // jobs

    struct Trace {
        std::size_t before;
        std::size_t job;
    };

    struct Followed {
        std::optional<Order> rest;  // the best that was found
        bool all = true;            // all that matter were followed
    };

    std::size_t size() const { return m_progression.jobs().size(); }

    Beginning startingWith(Progress progress, std::size_t trace) const {
        Jobs begun(size());
        for (std::size_t job = 0; job < size(); ++job) begun[job] = progress.hasBegun(job);
        Outlook outlook = m_progression.outlook(progress);
        return {std::move(progress), std::move(begun), std::move(outlook), trace};
    }

    // How `beginning` can be completed by `limit`, looking at `width` orders at a time.
    Followed follow(const Beginning& beginning, std::size_t width, Ms limit) {
        Followed followed;
        m_traces.assign(1, {0, 0});
        std::vector<Beginning> front{beginning};
        std::vector<Beginning> seen;
        while (!front.empty() && !m_progression.isComplete(front.front().progress)) {
            followed.all &= front.size() <= width && !isSpent();
            if (isSpent()) return followed;
            if (front.size() > width) front.resize(width);
            Beginnings next;
            for (const Beginning& each : front) addNext(each, limit, next);
            std::move(front.begin(), front.end(), std::back_inserter(seen));
            front = std::move(next).take();
        }
        if (front.empty()) {
            if (followed.all) rememberAsLate(seen);
            return followed;
        }
        followed.rest.emplace();
        for (std::size_t trace = front.front().trace; trace != 0; trace = m_traces[trace].before) {
            followed.rest->push_back(m_traces[trace].job);
        }
        std::reverse(followed.rest->begin(), followed.rest->end());
        return followed;
    }

    void addNext(const Beginning& beginning, Ms limit, Beginnings& next) {
        for (const Step& step : m_progression.steps(beginning.progress, beginning.outlook)) {
            if (m_steps > 0) --m_steps;
            auto later =
                startingWith(m_progression.after(beginning.progress, step), m_traces.size());
            if (later.outlook.bound > limit || m_late.contains(later)) continue;
            if (!next.add(std::move(later))) continue;
            m_traces.push_back({beginning.trace, step.job});
        }
    }

    // Some order is always found.
    bool isSpent() const { return m_steps == 0 && m_best != none; }

    void rememberAsLate(const std::vector<Beginning>& beginnings) {
        for (const Beginning& each : beginnings) m_late.add(each);
    }

    void take(Order order) {
        m_bestOrder = std::move(order);
        Progress progress = m_progression.begin();
        for (const std::size_t job : m_bestOrder) {
            progress = m_progression.after(progress, stepOf(progress, job));
        }
        m_best = progress.finish;
    }

    // Finds a better order, if there is one among those looked at; whether there is no better one.
    bool improve(const Beginning& start, std::size_t width) {
        auto followed = follow(start, width, m_best - 1);
        if (followed.rest) take(std::move(*followed.rest));
        return followed.all;
    }

    // The first by (start, kind, name), task by task, of all orders that finish by the best: at
    // each place the first task from which the rest can still be done in time. Whether it is sure.
    bool findFirstAmongBest(const Beginning& start) {
        bool sure = true;
        Beginning now = start;
        for (std::size_t place = 0; place < size(); ++place) {
            for (const Step& step : m_progression.steps(now.progress, now.outlook)) {
                if (step.job == m_bestOrder[place]) break;
                const auto next = startingWith(m_progression.after(now.progress, step), 0);
                if (takeIfInTime(place, step.job, next, sure)) break;
            }
            const Step step = stepOf(now.progress, m_bestOrder[place]);
            now = startingWith(m_progression.after(now.progress, step), 0);
        }
        return sure;
    }

    // Whether an order with `job` at that place finishes by the best, and then takes it.
    bool takeIfInTime(std::size_t place, std::size_t job, const Beginning& next, bool& sure) {
        if (next.outlook.bound > m_best) return false;
        bool all = false;
        for (const std::size_t width : m_widths) {
            if (all) return false;
            const Followed followed = follow(next, width, m_best);
            all = followed.all;
            if (!followed.rest) continue;
            Order order(m_bestOrder.begin(), m_bestOrder.begin() + static_cast<long>(place));
            order.push_back(job);
            order.insert(order.end(), followed.rest->begin(), followed.rest->end());
            take(std::move(order));  // earlier still, if it was not proved the best
            return true;
        }
        sure &= all;
        return false;
    }

    Step stepOf(const Progress& progress, std::size_t job) const {
        return {job, m_progression.earliest(progress, job)};
    }

    std::vector<Task> timed() const {
        std::vector<Task> tasks;
        Progress progress = m_progression.begin();
        for (const std::size_t index : m_bestOrder) {
            const Job& job = m_progression.jobs()[index];
            const Step step = stepOf(progress, index);
            Task task = job.task;
            task.start = {step.start};
            task.attended = task.start + job.attended;
            task.finish = task.start + job.takes;
            task.notBefore = job.release;
            for (const Lag& lag : job.lags) {
                if (!progress.hasBegun(lag.task)) continue;
                const Instant until = Instant{progress.finishes[lag.task]} + lag.wait;
                task.notBefore = task.notBefore ? std::max(*task.notBefore, until) : until;
            }
            if (task.notBefore && task.notBefore->ms <= m_from) task.notBefore.reset();
            tasks.push_back(std::move(task));
            progress = m_progression.after(progress, step);
        }
        return tasks;
    }

    Progression m_progression;
    Ms m_from;
    std::uint64_t m_steps;  // still to be looked at
    std::vector<std::size_t> m_widths;
    std::vector<Trace> m_traces;
    Late m_late;
    Order m_bestOrder;
    Ms m_best = none;
};

}  // namespace

Sequence bestSequence(const Sequencing& sequencing, std::uint64_t nodes) {
    if (sequencing.jobs.empty()) return {{}, sequencing.from, true, sequencing.from};
    return Search(sequencing, nodes).run();
}

}  // namespace rules
