// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The muster from its parts: which units take part, with what tasks, and the schedule of a crew as
// steps of people; see muster.h.
#include "rules/muster.h"

#include "rules/crew_schedule.h"
#include "rules/log.h"
#include "rules/plan_tasks.h"

#include <algorithm>
#include <tuple>

namespace rules {
namespace {

// A unit that can be made ready.
struct Candidate {
    std::string device;
    State own;  // of this unit alone
    TaskSet tasks;
    Instant readyUntil = unlimited;  // of one that is ready
};

class MusterMaker {
public:
    MusterMaker(const State& state, const MusterQuestion& question) : m_state(state) {
        m_muster.question = question;
        m_muster.finish = m_muster.bound = m_muster.finishOfOneMore = question.at;
    }

    Muster make() {
        for (const auto& [serial, device] : m_state.devices) {
            if (!device->retired) lookAt(*device);
        }
        takeReady();
        schedule();
        for (MusterUnit& unit : m_muster.units) {
            m_muster.finish = std::max(m_muster.finish, unit.readyAt);
        }
        addRemarks();
        if (m_muster.isEnough()) m_muster.rest.clear();
        return m_muster;
    }

private:
    const MusterQuestion& question() const { return m_muster.question; }

    PlanQuestion askedOf(const Candidate& candidate) const {
        return {candidate.own, candidate.device, question().at, question().group};
    }

    void lookAt(const Device& device) {
        if (question().leftOut.contains(device.serial)) {
            m_muster.rest.push_back({device.serial, {}});
            return;
        }
        Candidate candidate{device.serial, m_state.excerpt({device.serial}), {}};
        const PlanQuestion asked = askedOf(candidate);
        candidate.tasks = findTasks(asked);
        std::vector<std::string> blockers = blockersAfter(asked, candidate.tasks);
        Sequencing sequencing;
        if (blockers.empty()) {
            sequencing = sequencingOf(asked, candidate.tasks);
            if (!sequencing.orderable) blockers = orderBlockers(candidate.tasks);
        }
        if (!blockers.empty()) {
            m_muster.rest.push_back({device.serial, std::move(blockers)});
            return;
        }
        if (sequencing.jobs.empty()) candidate.readyUntil = readyUntil(candidate);
        auto& candidates = sequencing.jobs.empty() ? m_ready : m_candidates;
        candidates.push_back(std::move(candidate));
        if (!sequencing.jobs.empty()) m_sequencings.push_back(std::move(sequencing));
    }

    Instant readyUntil(const Candidate& candidate) const {
        const Device& device = *candidate.own.device(candidate.device);
        const Question asked{question().at, question().group};
        return assess(candidate.own, device, asked).readyUntil.value_or(unlimited);
    }

    // Those that stay ready longest; of equals the first by serial.
    void takeReady() {
        std::stable_sort(m_ready.begin(), m_ready.end(), [](const auto& a, const auto& b) {
            return a.readyUntil > b.readyUntil;
        });
        const std::size_t count = std::min(m_ready.size(), question().units);
        for (std::size_t index = 0; index < count; ++index) {
            MusterUnit unit;
            unit.device = m_ready[index].device;
            unit.readyAt = question().at;
            m_muster.units.push_back(std::move(unit));
        }
    }

    void schedule() {
        const std::size_t wanted =
            std::min(question().units - m_muster.units.size(), m_candidates.size());
        if (wanted == 0) return;
        const CrewWork work(m_sequencings, question().at);
        const auto answers = bestSchedules(work, question().people + 1, wanted);
        const CrewAnswer& answer = answers[question().people - 1];
        m_muster.bound = {answer.bound};
        m_muster.exact = answer.bound == answer.schedule.outcome.finish();
        m_muster.finishOfOneMore = {answers.back().schedule.outcome.finish()};
        addUnits(work, answer.schedule);
    }

    void addUnits(const CrewWork& work, const CrewSchedule& schedule) {
        const auto by = peopleOf(work, question().people, schedule);
        std::vector<MusterUnit> units(work.unitCount());
        for (std::size_t place = 0; place < schedule.order.size(); ++place) {
            const Piece& piece = work.pieces()[schedule.order[place]];
            MusterUnit& unit = units[piece.unit];
            unit.steps.push_back({by[place] + 1, taskOf(piece, {schedule.starts[place]}, unit)});
            unit.readyAt = std::max(unit.readyAt, unit.steps.back().task.finish);
        }
        for (std::size_t index = 0; index < units.size(); ++index) {
            units[index].device = m_candidates[index].device;
        }
        std::erase_if(units, [](const MusterUnit& unit) { return unit.steps.empty(); });
        std::sort(units.begin(), units.end(), [](const MusterUnit& a, const MusterUnit& b) {
            return std::tie(a.readyAt, a.device) < std::tie(b.readyAt, b.device);
        });
        std::move(units.begin(), units.end(), std::back_inserter(m_muster.units));
    }

    // With what it waits for, which steps of the unit before it are a part of.
    Task taskOf(const Piece& piece, Instant start, const MusterUnit& unit) const {
        const auto& jobs = m_sequencings[piece.unit].jobs;
        const Job& job = jobs[piece.job];
        Task task = job.task;
        task.start = start;
        task.attended = start + job.attended;
        task.finish = start + job.takes;
        task.notBefore = job.release;
        for (const Lag& lag : job.lags) {
            const Task& before = jobs[lag.task].task;
            for (const MusterStep& step : unit.steps) {
                if (toText(step.task) != toText(before)) continue;
                const Instant until = step.task.finish + lag.wait;
                task.notBefore = task.notBefore ? std::max(*task.notBefore, until) : until;
            }
        }
        if (task.notBefore && *task.notBefore <= question().at) task.notBefore.reset();
        return task;
    }

    void addRemarks() {
        for (MusterUnit& unit : m_muster.units) {
            const bool isReady = unit.steps.empty();
            const auto& all = isReady ? m_ready : m_candidates;
            const auto candidate =
                std::find_if(all.begin(), all.end(),
                             [&unit](const Candidate& each) { return each.device == unit.device; });
            unit.runsOut = runsOut(*candidate, unit);
            if (!isReady) unit.readyFor = readyFor(*candidate);
        }
    }

    std::optional<std::string> readyFor(const Candidate& candidate) const {
        const Device& device = *candidate.own.device(candidate.device);
        const Question now{question().at, std::nullopt, false, false, false};
        const auto group = device.group();
        if (!group || group == question().group) return std::nullopt;
        const bool ready = assess(candidate.own, device, now).verdict == Verdict::Ready;
        return ready ? group : std::nullopt;
    }

    // What stands at the finish of all and does not now, or is not waived any more.
    std::vector<std::string> runsOut(const Candidate& candidate, const MusterUnit& unit) const {
        Plan plan;
        plan.from = question().at;
        plan.readyAt = m_muster.finish;
        for (const MusterStep& step : unit.steps) plan.tasks.push_back(step.task);
        return findingsToCome(askedOf(candidate), candidate.tasks, plan);
    }

    const State& m_state;
    Muster m_muster;
    std::vector<Candidate> m_ready;
    std::vector<Candidate> m_candidates;
    std::vector<Sequencing> m_sequencings;  // of the candidates
};

}  // namespace

Muster muster(const State& state, const MusterQuestion& question) {
    return MusterMaker(state, question).make();
}

}  // namespace rules
