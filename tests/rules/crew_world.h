// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Small crews to schedule, with times in whole numbers, and schedules as numbers to compare. Knows
// nothing of what any schedule should be.
#pragma once

#include "rules/crew_schedule.h"
#include "support/random_log.h"

#include <string>
#include <vector>

namespace support {

using rules::Job;
using rules::Sequencing;
using rules::TaskKind;

// A job that a person is busy with all the time, beside which anything can be done.
inline Job job(rules::Ms takes, std::vector<std::size_t> after = {}) {
    Job made;
    made.task.kind = TaskKind::Reprocess;
    made.takes = made.attended = {takes};
    made.predecessors = std::move(after);
    return made;
}

inline Job fit(rules::Ms takes) {
    Job made = job(takes);
    made.task.kind = TaskKind::Fit;
    made.meansHandsOff = true;
    return made;
}

inline Job check(rules::Ms takes, rules::Ms attended, std::vector<std::size_t> after = {}) {
    Job made = job(takes, std::move(after));
    made.task.kind = TaskKind::Check;
    made.attended = {attended};
    made.alone = true;
    return made;
}

inline Sequencing unit(std::vector<Job> jobs) {
    Sequencing made;
    made.jobs = std::move(jobs);
    for (std::size_t index = 0; index < made.jobs.size(); ++index) {
        made.jobs[index].task.subject = "j" + std::to_string(index);
    }
    return made;
}

// Jobs of one unit that do not depend on each other.
inline Sequencing unitOf(const std::vector<rules::Ms>& times) {
    std::vector<Job> jobs;
    for (const rules::Ms takes : times) jobs.push_back(job(takes));
    return unit(std::move(jobs));
}

using Units = std::vector<Sequencing>;

inline std::vector<rules::CrewAnswer> bestOf(const Units& units, std::size_t people,
                                             std::size_t wanted) {
    return rules::bestSchedules(rules::CrewWork(units, {}), people, wanted);
}

inline rules::Ms bestFinish(const Units& units, std::size_t people, std::size_t wanted = 1) {
    return bestOf(units, people, wanted).back().schedule.outcome.finish();
}

// By the rule of lists, all pieces in the order in which they stand.
inline rules::Ms listFinish(const Units& units, std::size_t people, rules::Order list = {}) {
    const rules::CrewWork work(units, {});
    for (rules::PieceId piece = 0; list.size() < work.pieces().size(); ++piece) {
        list.push_back(piece);
    }
    return rules::listSchedule(work, people, list).outcome.finish();
}

// Up to three units with up to six jobs in all: fits, checks, work that goes on by itself, waits
// and what comes before what.
class RandomCrew {
public:
    explicit RandomCrew(std::uint32_t seed);

    [[nodiscard]] const Units& units() const { return m_units; }
    [[nodiscard]] std::size_t wanted() const { return m_wanted; }
    [[nodiscard]] std::size_t people() const { return m_people; }
    [[nodiscard]] std::string text() const;

private:
    Sequencing anyUnit(int mostJobs);
    Job anyJob(std::size_t index, const std::vector<Job>& before);

    Random m_random;
    Units m_units;
    std::size_t m_wanted, m_people;
};

// The best outcome by a second model, written apart from the engine's: a clock that goes on unit by
// unit, and at each stroke every choice of what to begin is tried.
[[nodiscard]] rules::Outcome outcomeByClock(const Units& units, std::size_t people,
                                            std::size_t wanted);

}  // namespace support
