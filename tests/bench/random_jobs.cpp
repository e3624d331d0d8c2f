// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Durations are drawn wide, since no source says what is usual; see random_jobs.h.
#include "bench/random_jobs.h"

#include "support/random_log.h"

namespace bench {
namespace {

using rules::Duration;
using rules::Job;
using rules::TaskKind;

Duration seconds(int count) { return {count * 1000LL}; }

Job jobOf(TaskKind kind, std::size_t number) {
    Job job;
    job.task.kind = kind;
    job.task.subject = "j" + std::to_string(100 + number);
    return job;
}

// After some of the parts, some with a wait, and after some of the checks before it.
Job anyCheck(support::Random& random, const std::vector<Job>& before) {
    Job job = jobOf(TaskKind::Check, before.size());
    const int takes = 100 + random.below(900);
    job.takes = seconds(takes);
    job.attended = seconds(1 + random.below(takes));
    job.alone = true;
    if (random.chance(33)) job.release = logbook::Instant{random.below(3000) * 1000LL};
    for (std::size_t number = 0; number < before.size(); ++number) {
        const bool isCheck = before[number].task.kind == TaskKind::Check;
        if (!random.chance(isCheck ? 10 : 25)) continue;
        job.predecessors.push_back(number);
        const bool waits = before[number].task.kind == TaskKind::Fit && random.chance(50);
        if (waits) job.lags.push_back({number, seconds(300 + random.below(1500))});
    }
    return job;
}

}  // namespace

rules::Sequencing randomJobs(std::uint32_t seed, int count) {
    support::Random random(seed);
    rules::Sequencing work;
    for (int number = 0; number < count; ++number) {
        if (number < count / 4) {
            Job job = jobOf(TaskKind::Reprocess, work.jobs.size());
            job.takes = seconds(600 + random.below(2400));
            job.attended = seconds(60 + random.below(400));
            work.jobs.push_back(job);
        } else if (number < count / 4 + count / 3) {
            Job job = jobOf(TaskKind::Fit, work.jobs.size());
            job.takes = job.attended = seconds(30 + random.below(300));
            job.meansHandsOff = true;
            work.jobs.push_back(job);
        } else {
            work.jobs.push_back(anyCheck(random, work.jobs));
        }
    }
    return work;
}

}  // namespace bench
