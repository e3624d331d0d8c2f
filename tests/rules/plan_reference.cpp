// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which orders of the tasks are allowed, when each task starts in one, and which is the best; see
// plan_reference.h. The tasks are found in plan_reference_tasks.cpp.
#include "rules/plan_reference.h"

#include "rules/plan_reference_scene.h"

#include <algorithm>

namespace plan_reference {
namespace {

using rules::Check;
using rules::EventKind;

bool hasPath(const rules::Condition& condition, const std::string& position) {
    for (const auto& entry : condition) {
        const bool ofPosition =
            entry.kind == rules::PathKind::Fitted || entry.kind == rules::PathKind::Attribute;
        if (ofPosition && entry.name == position) return true;
    }
    return false;
}

class ProblemFinder {
public:
    ProblemFinder(const Question& question, const Tasks& tasks)
        : m_question(question),
          m_book(*question.state.rulebook),
          m_tasks(tasks),
          m_before(sceneAfter(question, tasks, false)),
          m_after(sceneAfter(question, tasks, true)) {}

    Problem find() {
        m_problem.from = m_question.at;
        addSteps();
        m_problem.notBefore.resize(m_problem.steps.size());
        addWaitsOfParts();
        for (const auto& key : m_tasks.checks) addWaitsOfCheck(*m_book.check(key));
        return m_problem;
    }

private:
    void addSteps() {
        auto& steps = m_problem.steps;
        if (m_tasks.group) steps.push_back({TaskKind::Group, m_question.group, {}, {}});
        for (const auto& position : m_book.positions) {
            const auto& key = position.key;
            if (m_tasks.takenOut.contains(key) || m_tasks.removedForChoice.contains(key)) {
                steps.push_back({TaskKind::Remove, key, {}, {}});
            }
            if (m_tasks.reprocesses.contains(key)) {
                steps.push_back({TaskKind::Reprocess, key, position.reprocessTakes,
                                 position.reprocessAttended});
            }
            if (m_tasks.newParts.contains(key) || m_tasks.closing.contains(key)) {
                steps.push_back({TaskKind::Fit, key, position.takes, position.takes});
            }
        }
        for (const auto& key : m_tasks.checks) {
            const Check& check = *m_book.check(key);
            steps.push_back({TaskKind::Check, key, check.takes, check.attended});
        }
    }

    std::optional<std::size_t> place(TaskKind kind, const std::string& name) const {
        for (std::size_t index = 0; index < m_problem.steps.size(); ++index) {
            const Step& step = m_problem.steps[index];
            if (step.kind == kind && step.name == name) return index;
        }
        return std::nullopt;
    }

    void order(std::optional<std::size_t> first, std::optional<std::size_t> then) {
        if (first && then) m_problem.waits.push_back({*first, *then, {}, true});
    }

    void addWaitsOfParts() {
        for (std::size_t index = 0; index < m_problem.steps.size(); ++index) {
            const Step& step = m_problem.steps[index];
            if (step.kind == TaskKind::Group) continue;
            order(place(TaskKind::Group, m_question.group), index);
            if (step.kind != TaskKind::Remove) continue;
            order(place(TaskKind::Reprocess, step.name), index);
            order(index, place(TaskKind::Fit, step.name));
        }
    }

    // "voids, has needs_match on, whose not_before names its fit, or whose applies_when, or the
    // when of whose not_with, has a path on".
    bool comesFirst(const Check& check, TaskKind kind, const std::string& position) const {
        if (voids(m_before, m_question, check, {eventOf(kind), position})) return true;
        for (const auto& needed : check.needsMatch) {
            if (needed == position) return true;
        }
        for (const auto& rule : check.notBefore) {
            if (namesFit(rule.event, position)) return true;
        }
        if (hasPath(check.appliesWhen, position)) return true;
        for (const auto& rule : check.notWith) {
            if (rule.when && hasPath(*rule.when, position)) return true;
        }
        return false;
    }

    bool comesAfterClosing(const Check& check, const std::string& position) const {
        if (voids(m_after, m_question, check, {EventKind::Fit, position})) return true;
        for (const auto& needed : check.needsMatch) {
            if (needed == position) return true;
        }
        if (hasPath(check.appliesWhen, position)) return true;
        for (const auto& rule : check.notWith) {
            if (rule.position == position || !rule.when) continue;
            if (hasPath(*rule.when, position)) return true;
        }
        return false;
    }

    static EventKind eventOf(TaskKind kind) {
        if (kind == TaskKind::Remove) return EventKind::Remove;
        return kind == TaskKind::Reprocess ? EventKind::Reprocess : EventKind::Fit;
    }

    static bool namesFit(const rules::Event& event, const std::string& position) {
        return event.kind == EventKind::Fit &&
               (event.subject == position || event.subject == "*");
    }

    void addWaitsOfCheck(const Check& check) {
        const auto index = place(TaskKind::Check, check.key);
        for (const auto& position : m_book.positions) {
            const auto& key = position.key;
            const bool closes = m_tasks.closing.contains(key);
            for (const TaskKind kind : {TaskKind::Remove, TaskKind::Reprocess, TaskKind::Fit}) {
                const bool isClosing = closes && kind == TaskKind::Fit;
                const auto first = place(kind, key);
                if (first && !isClosing && comesFirst(check, kind, key)) order(first, index);
            }
            if (closes) addWaitsAroundClosing(check, key);
        }
        for (const auto& earlier : check.after) order(place(TaskKind::Check, earlier), index);
        addNotBefore(check, *index);
    }

    void addWaitsAroundClosing(const Check& check, const std::string& position) {
        const auto index = place(TaskKind::Check, check.key);
        const auto closing = place(TaskKind::Fit, position);
        const bool isOut = isForbiddenWith(m_after, check, position);
        const bool isIn = comesAfterClosing(check, position);
        if (isOut) order(place(TaskKind::Remove, position), index);
        if (isOut) order(index, closing);
        if (isIn) order(closing, index);
        m_problem.contradiction |= isOut && isIn;
    }

    void addNotBefore(const Check& check, std::size_t index) {
        auto& earliest = m_problem.notBefore[index];
        const auto notBefore = [&earliest](Instant instant) {
            if (!earliest || *earliest < instant) earliest = instant;
        };
        for (const auto& rule : check.notBefore) {
            if (rule.event.kind == EventKind::PowerOn) {
                const auto& since = m_question.device.poweredSince;
                notBefore((since ? *since : m_question.at) + rule.wait);
                continue;
            }
            for (const auto& position : m_book.positions) {
                if (!namesFit(rule.event, position.key)) continue;
                const auto now = m_question.device.fitted.find(position.key);
                const bool untouched = now != m_question.device.fitted.end() &&
                                       !place(TaskKind::Remove, position.key) &&
                                       !place(TaskKind::Fit, position.key);
                if (untouched) notBefore(now->second.fit.at + rule.wait);
                const auto fit = place(TaskKind::Fit, position.key);
                if (fit) m_problem.waits.push_back({*fit, index, rule.wait, false});
            }
        }
    }

    const Question& m_question;
    const rules::Rulebook& m_book;
    const Tasks& m_tasks;
    Scene m_before, m_after;
    Problem m_problem;
};

struct Placed {
    std::size_t step;
    Instant start, finish;
};

// Whether the two may be under way at once.
bool excludeEachOther(TaskKind a, TaskKind b) {
    const auto isOfParts = [](TaskKind kind) {
        return kind == TaskKind::Fit || kind == TaskKind::Remove;
    };
    if (a == TaskKind::Check) return b == TaskKind::Check || isOfParts(b);
    return b == TaskKind::Check && isOfParts(a);
}

// When the step starts after those placed, as early as that allows; none if something must come
// before that is not there.
std::optional<Instant> startAfter(const Problem& problem, const std::vector<Placed>& placed,
                                  std::size_t index) {
    Instant start = problem.from;
    if (const auto& notBefore = problem.notBefore[index]) start = std::max(start, *notBefore);
    for (const Placed& other : placed) {
        const Step& step = problem.steps[other.step];
        start = std::max(start, other.start + step.attended);
        if (excludeEachOther(step.kind, problem.steps[index].kind)) {
            start = std::max(start, other.finish);
        }
    }
    for (const Wait& wait : problem.waits) {
        if (wait.then != index) continue;
        const auto first = std::find_if(placed.begin(), placed.end(), [&wait](const Placed& each) {
            return each.step == wait.first;
        });
        if (first != placed.end()) start = std::max(start, first->finish + wait.wait);
        if (first == placed.end() && wait.must) return std::nullopt;
    }
    return start;
}

class AllOrders {
public:
    explicit AllOrders(const Problem& problem) : m_problem(problem) {}

    std::optional<Best> best() {
        if (!m_problem.contradiction) tryAll();
        return m_best;
    }

private:
    void tryAll() {
        if (m_placed.size() == m_problem.steps.size()) return take();
        for (std::size_t index = 0; index < m_problem.steps.size(); ++index) {
            const bool isThere =
                std::any_of(m_placed.begin(), m_placed.end(),
                            [index](const Placed& each) { return each.step == index; });
            if (isThere) continue;
            const auto start = startAfter(m_problem, m_placed, index);
            if (!start) continue;
            m_placed.push_back({index, *start, *start + m_problem.steps[index].takes});
            tryAll();
            m_placed.pop_back();
        }
    }

    void take() {
        Best order;
        order.finish = m_problem.from;
        for (const Placed& each : m_placed) {
            order.steps.emplace_back(each.step, each.start);
            order.finish = std::max(order.finish, each.finish);
        }
        if (!m_best || isBetter(order, *m_best)) m_best = order;
    }

    bool isBetter(const Best& a, const Best& b) const {
        if (a.finish != b.finish) return a.finish < b.finish;
        for (std::size_t place = 0; place < a.steps.size(); ++place) {
            const auto& [stepA, startA] = a.steps[place];
            const auto& [stepB, startB] = b.steps[place];
            if (startA != startB) return startA < startB;
            const Step& first = m_problem.steps[stepA];
            const Step& second = m_problem.steps[stepB];
            if (first.kind != second.kind) return first.kind < second.kind;
            if (first.name != second.name) return first.name < second.name;
        }
        return false;
    }

    const Problem& m_problem;
    std::vector<Placed> m_placed;
    std::optional<Best> m_best;
};

std::string line(TaskKind kind, const std::string& name, Instant start, Instant finish) {
    return std::string(rules::name(kind)) + ' ' + name + ' ' + logbook::toText(start) + ' ' +
           logbook::toText(finish) + '\n';
}

}  // namespace

Problem problemOf(const Question& question, const Tasks& tasks) {
    return ProblemFinder(question, tasks).find();
}

std::optional<std::vector<Instant>> startsOf(const Problem& problem,
                                             const std::vector<std::size_t>& order) {
    std::vector<Placed> placed;
    std::vector<Instant> starts;
    for (const std::size_t index : order) {
        const auto start = startAfter(problem, placed, index);
        if (!start) return std::nullopt;
        placed.push_back({index, *start, *start + problem.steps[index].takes});
        starts.push_back(*start);
    }
    return starts;
}

std::optional<Best> bestOf(const Problem& problem) { return AllOrders(problem).best(); }

std::string toText(const Problem& problem, const Best& best) {
    std::string all;
    for (const auto& [index, start] : best.steps) {
        const Step& step = problem.steps[index];
        all += line(step.kind, step.name, start, start + step.takes);
    }
    return all;
}

std::string toText(const std::vector<rules::Task>& tasks) {
    std::string all;
    for (const auto& task : tasks) all += line(task.kind, task.subject, task.start, task.finish);
    return all;
}

}  // namespace plan_reference
