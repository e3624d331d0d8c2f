// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What has to be finished before what; see plan_order.h.
#include "rules/plan_order.h"
#include "rules/evaluate.h"

#include <algorithm>

namespace rules {
namespace {

bool hasPath(const Condition& condition, const std::string& position) {
    return std::any_of(condition.begin(), condition.end(), [&](const ConditionEntry& entry) {
        const bool ofPart = entry.kind == PathKind::Fitted || entry.kind == PathKind::Attribute;
        return ofPart && entry.name == position;
    });
}

// Whether what is in `position` decides if the check applies, or if another part is in its way.
bool looksAt(const Check& check, const std::string& position, bool otherPositionsOnly) {
    if (hasPath(check.appliesWhen, position)) return true;
    return std::any_of(check.notWith.begin(), check.notWith.end(), [&](const NotWith& rule) {
        const bool counts = !otherPositionsOnly || rule.position != position;
        return counts && rule.when && hasPath(*rule.when, position);
    });
}

bool contains(const std::vector<std::string>& list, const std::string& key) {
    return std::find(list.begin(), list.end(), key) != list.end();
}

bool waitsFor(const Check& check, const std::string& position) {
    return std::any_of(check.notBefore.begin(), check.notBefore.end(), [&](const NotBefore& rule) {
        return rule.event.kind == EventKind::Fit &&
               (rule.event.subject == "*" || rule.event.subject == position);
    });
}

class OrderFinder {
public:
    OrderFinder(const PlanQuestion& question, const TaskSet& tasks)
        : m_question(question), m_tasks(tasks), m_rulebook(*question.state.rulebook) {
        m_done = carryOut(question, tasks,
                          [&question](TaskKind, const std::string&) { return question.at; });
        m_sequencing.from = question.at;
    }

    Sequencing find() {
        addJobs();
        addOrderOfParts();
        for (const auto& key : m_tasks.checks) addOrderOfCheck(*m_rulebook.check(key));
        for (Job& job : m_sequencing.jobs) {
            std::sort(job.predecessors.begin(), job.predecessors.end());
            job.predecessors.erase(std::unique(job.predecessors.begin(), job.predecessors.end()),
                                   job.predecessors.end());
        }
        m_sequencing.orderable &= isAcyclic();
        return m_sequencing;
    }

private:
    Job& addJob(TaskKind kind, const std::string& subject, Duration takes, Duration attended) {
        Job job;
        job.task.kind = kind;
        job.task.subject = subject;
        job.takes = takes;
        job.attended = attended;
        job.alone = kind == TaskKind::Check;
        job.meansHandsOff = kind == TaskKind::Fit || kind == TaskKind::Remove;
        m_sequencing.jobs.push_back(std::move(job));
        return m_sequencing.jobs.back();
    }

    void addJobs() {
        if (m_tasks.group) addJob(TaskKind::Group, *m_question.group, {}, {});
        std::set<std::string> removes = m_tasks.removes;
        removes.insert(m_tasks.openings.begin(), m_tasks.openings.end());
        for (const auto& key : removes) addJob(TaskKind::Remove, key, {}, {});
        for (const auto& key : m_tasks.reprocess) {
            const Position& position = *m_rulebook.position(key);
            addJob(TaskKind::Reprocess, key, position.reprocessTakes, position.reprocessAttended);
        }
        std::set<std::string> fits = m_tasks.fits;
        fits.insert(m_tasks.closing.begin(), m_tasks.closing.end());
        for (const auto& key : fits) {
            const Position& position = *m_rulebook.position(key);
            Job& job = addJob(TaskKind::Fit, key, position.takes, position.takes);
            job.task.closing = m_tasks.closing.contains(key);
            job.task.samePart = !m_tasks.fits.contains(key);
        }
        for (const auto& key : m_tasks.checks) {
            const Check& check = *m_rulebook.check(key);
            Job& job = addJob(TaskKind::Check, key, check.takes, check.attended);
            job.release = releaseOf(check);
        }
    }

    std::optional<std::size_t> find(TaskKind kind, const std::string& subject) const {
        for (std::size_t index = 0; index < m_sequencing.jobs.size(); ++index) {
            const Task& task = m_sequencing.jobs[index].task;
            if (task.kind == kind && task.subject == subject) return index;
        }
        return std::nullopt;
    }

    void before(std::optional<std::size_t> first, std::optional<std::size_t> then) {
        if (first && then) m_sequencing.jobs[*then].predecessors.push_back(*first);
    }

    // What the check waits for as things stand: the parts that stay, and the power.
    std::optional<Instant> releaseOf(const Check& check) const {
        std::optional<Instant> release;
        const auto wait = [&release](Instant until) {
            release = release ? std::max(*release, until) : until;
        };
        const Device& device = *m_question.state.device(m_question.device);
        for (const NotBefore& rule : check.notBefore) {
            if (rule.event.kind == EventKind::PowerOn) {
                wait(device.poweredSince.value_or(m_question.at) + rule.wait);
                continue;
            }
            for (const auto& [position, part] : device.fitted) {
                if (!m_rulebook.position(position)) continue;
                const bool named = rule.event.subject == "*" || rule.event.subject == position;
                const bool stays = !m_tasks.fits.contains(position) &&
                                   !m_tasks.removes.contains(position) &&
                                   !m_tasks.openings.contains(position);
                if (named && stays) wait(part.fit.at + rule.wait);
            }
        }
        return release;
    }

    void addOrderOfParts() {
        for (std::size_t index = 0; index < m_sequencing.jobs.size(); ++index) {
            const Task& task = m_sequencing.jobs[index].task;
            if (task.kind == TaskKind::Remove) {
                before(find(TaskKind::Reprocess, task.subject), index);
                before(index, find(TaskKind::Fit, task.subject));
            }
        }
    }

    bool voids(const Device& device, const Check& check, const Event& event) const {
        return std::any_of(
            check.voidedBy.begin(), check.voidedBy.end(), [&](const VoidedBy& entry) {
                return matches(entry.event, event) && voidsAsFitted(device, check, entry, event) &&
                       (!entry.when || holds(*entry.when, device, m_rulebook, Unknown::Holds)) &&
                       (!entry.unless ||
                        !holds(*entry.unless, device, m_rulebook, Unknown::HoldsNot));
            });
    }

    bool voidsAsFitted(const Device& device, const Check& check, const VoidedBy& entry,
                       const Event& event) const {
        if (entry.only == Only::Any) return true;
        return fitVoids(m_question.state, device, check, entry, event.subject);
    }

    static EventKind eventOf(TaskKind kind) {
        return kind == TaskKind::Remove      ? EventKind::Remove
               : kind == TaskKind::Reprocess ? EventKind::Reprocess
                                             : EventKind::Fit;
    }

    // Whether a task on a part must be over before the check may begin.
    bool matters(const Check& check, const Task& task, const Device& device) const {
        return voids(device, check, {eventOf(task.kind), task.subject}) ||
               contains(check.needsMatch, task.subject) ||
               looksAt(check, task.subject, task.closing);
    }

    void addOrderOfCheck(const Check& check) {
        const auto index = find(TaskKind::Check, check.key);
        const Device& before_ = *m_done.before.device(m_question.device);
        const Device& after = *m_done.after.device(m_question.device);
        for (std::size_t other = 0; other < m_sequencing.jobs.size(); ++other) {
            const Task task = m_sequencing.jobs[other].task;
            if (task.kind == TaskKind::Group || task.kind == TaskKind::Check) continue;
            const bool inWay = m_tasks.closing.contains(task.subject) &&
                               forbids(m_done.after, after, check, task.subject);
            if (task.closing) {
                orderAroundClosing(check, other, inWay);
            } else {
                const bool opens = task.kind == TaskKind::Remove && inWay;
                if (opens || waitsFor(check, task.subject) || matters(check, task, before_)) {
                    before(other, index);
                }
            }
            if (task.kind == TaskKind::Fit) addLags(check, other);
        }
        for (const auto& first : check.after) before(find(TaskKind::Check, first), index);
    }

    void orderAroundClosing(const Check& check, std::size_t closing, bool inWay) {
        const auto index = find(TaskKind::Check, check.key);
        const Device& after = *m_done.after.device(m_question.device);
        const bool mustFollow = matters(check, m_sequencing.jobs[closing].task, after);
        if (inWay) before(index, closing);
        if (mustFollow) before(closing, index);
        if (inWay && mustFollow) m_sequencing.orderable = false;
    }

    void addLags(const Check& check, std::size_t fit) {
        Job& job = m_sequencing.jobs[*find(TaskKind::Check, check.key)];
        const std::string& position = m_sequencing.jobs[fit].task.subject;
        for (const NotBefore& rule : check.notBefore) {
            const bool named = rule.event.subject == "*" || rule.event.subject == position;
            if (rule.event.kind == EventKind::Fit && named) job.lags.push_back({fit, rule.wait});
        }
    }

    bool isAcyclic() const {
        std::vector<std::size_t> open(m_sequencing.jobs.size());
        std::vector<std::size_t> ready;
        for (std::size_t index = 0; index < open.size(); ++index) {
            open[index] = m_sequencing.jobs[index].predecessors.size();
            if (open[index] == 0) ready.push_back(index);
        }
        std::size_t done = 0;
        while (!ready.empty()) {
            const std::size_t finished = ready.back();
            ready.pop_back();
            ++done;
            for (std::size_t index = 0; index < open.size(); ++index) {
                const auto& needs = m_sequencing.jobs[index].predecessors;
                const bool waits = std::binary_search(needs.begin(), needs.end(), finished);
                if (waits && --open[index] == 0) ready.push_back(index);
            }
        }
        return done == open.size();
    }

    const PlanQuestion& m_question;
    const TaskSet& m_tasks;
    const Rulebook& m_rulebook;
    CarriedOut m_done;
    Sequencing m_sequencing;
};

}  // namespace

Sequencing sequencingOf(const PlanQuestion& question, const TaskSet& tasks) {
    return OrderFinder(question, tasks).find();
}

}  // namespace rules
