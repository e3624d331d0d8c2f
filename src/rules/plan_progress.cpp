// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What can begin next, and bounds on what is still to come; see plan_progress.h.
#include "rules/plan_progress.h"

#include <algorithm>
#include <numeric>

namespace rules {
namespace {

// A task as one resource sees it, which does one task at a time.
struct Claim {
    Ms head;   // no earlier than this
    Ms takes;  // of the resource
    Ms tail;   // still to come after it, without the resource
};

// The least finish of tasks on one resource if each could be interrupted, which bounds it where
// they cannot: the most that any of them, from a head on and up to a tail, need together (Carlier,
// "The one-machine sequencing problem", 1982). Claims are added by tail, the longest first.
class Load {
public:
    explicit Load(std::size_t most) { m_loads.reserve(most); }

    void add(const Claim& claim) {
        if (claim.takes == 0) return;
        auto place = m_loads.end();
        Ms later = 0;
        while (place != m_loads.begin() && (place - 1)->head > claim.head) --place;
        if (place != m_loads.end()) later = place->until - place->head;
        place = m_loads.insert(place, {claim.head, claim.head + claim.takes + later});
        m_latest = std::max(m_latest, place->until);
        while (place != m_loads.begin()) {
            --place;
            place->until += claim.takes;
            m_latest = std::max(m_latest, place->until);
        }
        m_finish = std::max(m_finish, m_latest + claim.tail);
    }

    Ms finish() const { return m_finish; }

private:
    struct From {
        Ms head;
        Ms until;  // head and all that begins no earlier, one after another
    };
    std::vector<From> m_loads;  // by head
    Ms m_latest = Progress::notBegun;
    Ms m_finish = Progress::notBegun;
};

Ms finishOf(std::vector<Claim> claims) {
    std::sort(claims.begin(), claims.end(),
              [](const Claim& a, const Claim& b) { return a.tail > b.tail; });
    Load load(claims.size());
    for (const Claim& claim : claims) load.add(claim);
    return load.finish();
}

}  // namespace

Progression::Progression(const Sequencing& sequencing)
    : m_jobs(sequencing.jobs), m_from(sequencing.from.ms) {
    findWaits();
    sortTopologically();
    findAncestors();
    findTails();
    sortByTail();
    findTwins();
}

void Progression::findWaits() {
    m_waits.resize(m_jobs.size());
    m_followers.resize(m_jobs.size());
    for (std::size_t job = 0; job < m_jobs.size(); ++job) {
        const auto& predecessors = m_jobs[job].predecessors;
        auto& waits = m_waits[job];
        for (const std::size_t before : predecessors) waits.push_back({before, 0, true});
        for (const Lag& lag : m_jobs[job].lags) {
            const bool must = std::find(predecessors.begin(), predecessors.end(), lag.task) !=
                              predecessors.end();
            waits.push_back({lag.task, lag.wait.ms, must});
        }
        std::sort(waits.begin(), waits.end());
        for (const Wait& each : waits) m_followers[each.job].push_back({job, each.wait, each.must});
    }
}

void Progression::sortTopologically() {
    std::vector<bool> placed(m_jobs.size());
    while (m_topological.size() < m_jobs.size()) {
        for (std::size_t job = 0; job < m_jobs.size(); ++job) {
            const auto& needs = m_jobs[job].predecessors;
            const bool met = std::all_of(needs.begin(), needs.end(),
                                         [&](std::size_t before) { return placed[before]; });
            if (placed[job] || !met) continue;
            placed[job] = true;
            m_topological.push_back(job);
        }
    }
}

void Progression::findAncestors() {
    m_ancestors.resize(m_jobs.size());
    for (const std::size_t job : m_topological) {
        auto& all = m_ancestors[job];
        for (const std::size_t before : m_jobs[job].predecessors) {
            all.push_back(before);
            all.insert(all.end(), m_ancestors[before].begin(), m_ancestors[before].end());
        }
        std::sort(all.begin(), all.end());
        all.erase(std::unique(all.begin(), all.end()), all.end());
    }
}

void Progression::findTails() {
    m_tails.assign(m_jobs.size(), 0);
    for (auto job = m_topological.rbegin(); job != m_topological.rend(); ++job) {
        m_tails[*job] = tailOf(*job);
    }
}

// All that follow, from the finish of the job on: each as early as the chain to it allows, and as
// they share the person and the bench.
Ms Progression::tailOf(std::size_t job) const {
    std::vector<Ms> heads(m_jobs.size(), Progress::notBegun);
    std::vector<Claim> ofPerson, ofBench;
    Ms tail = 0;
    heads[job] = -m_jobs[job].takes.ms;
    for (const std::size_t index : m_topological) {
        const Ms head = heads[index];
        if (head == Progress::notBegun) continue;
        const Job& each = m_jobs[index];
        for (const Wait& follower : m_followers[index]) {
            Ms& later = heads[follower.job];
            if (follower.must) later = std::max(later, head + each.takes.ms + follower.wait);
        }
        if (index == job) continue;
        const Ms unattended = each.takes.ms - each.attended.ms;
        tail = std::max(tail, head + each.takes.ms + m_tails[index]);
        ofPerson.push_back({head, each.attended.ms, unattended + m_tails[index]});
        if (usesBench(index)) ofBench.push_back({head, each.takes.ms, m_tails[index]});
    }
    return std::max({tail, finishOf(ofPerson), finishOf(ofBench)});
}

void Progression::sortByTail() {
    m_byTail.resize(m_jobs.size());
    std::iota(m_byTail.begin(), m_byTail.end(), std::size_t{0});
    m_byPersonTail = m_byTail;
    for (std::size_t job = 0; job < m_jobs.size(); ++job) {
        m_personTails.push_back(m_jobs[job].takes.ms - m_jobs[job].attended.ms + m_tails[job]);
    }
    const auto longestFirst = [](std::vector<std::size_t>& jobs, const std::vector<Ms>& tails) {
        std::stable_sort(jobs.begin(), jobs.end(), [&tails](std::size_t a, std::size_t b) {
            return tails[a] > tails[b];
        });
    };
    longestFirst(m_byTail, m_tails);
    longestFirst(m_byPersonTail, m_personTails);
}

void Progression::findTwins() {
    m_earlierTwins.resize(m_jobs.size());
    for (std::size_t job = 0; job < m_jobs.size(); ++job) {
        for (std::size_t earlier = 0; earlier < job; ++earlier) {
            if (areTwins(earlier, job)) m_earlierTwins[job].push_back(earlier);
        }
    }
}

// Alike in all but the name: changing their places changes no time.
bool Progression::areTwins(std::size_t first, std::size_t second) const {
    const Job& a = m_jobs[first];
    const Job& b = m_jobs[second];
    return a.task.kind == b.task.kind && a.takes == b.takes && a.attended == b.attended &&
           a.release == b.release && m_waits[first] == m_waits[second] &&
           m_followers[first] == m_followers[second];
}

Progress Progression::begin() const {
    Progress progress;
    progress.person = progress.bench = progress.finish = m_from;
    progress.finishes.assign(m_jobs.size(), Progress::notBegun);
    return progress;
}

bool Progression::isComplete(const Progress& progress) const {
    const auto& finishes = progress.finishes;
    return std::find(finishes.begin(), finishes.end(), Progress::notBegun) == finishes.end();
}

Progress Progression::after(const Progress& progress, const Step& step) const {
    const Job& job = m_jobs[step.job];
    const Ms finish = step.start + job.takes.ms;
    Progress next = progress;
    next.person = step.start + job.attended.ms;
    if (job.alone) next.bench = finish;
    next.finish = std::max(next.finish, finish);
    next.finishes[step.job] = finish;
    return next;
}

Ms Progression::earliest(const Progress& progress, std::size_t index) const {
    const Job& job = m_jobs[index];
    Ms start = progress.person;
    if (usesBench(index)) start = std::max(start, progress.bench);
    if (job.release) start = std::max(start, job.release->ms);
    for (const Wait& wait : m_waits[index]) {
        if (!progress.hasBegun(wait.job)) continue;
        start = std::max(start, progress.finishes[wait.job] + wait.wait);
    }
    return start;
}

bool Progression::canBegin(const Progress& progress, std::size_t job) const {
    if (progress.hasBegun(job)) return false;
    const bool groupFirst = m_jobs.front().task.kind == TaskKind::Group;
    if (groupFirst && job != 0 && !progress.hasBegun(0)) return false;
    const auto begun = [&progress](std::size_t other) { return progress.hasBegun(other); };
    const auto& needs = m_jobs[job].predecessors;
    const auto& twins = m_earlierTwins[job];
    return std::all_of(needs.begin(), needs.end(), begun) &&
           std::all_of(twins.begin(), twins.end(), begun);
}

bool Progression::delaysNothing(const Progress& progress, const Step& first,
                                const Step& then) const {
    const Job& job = m_jobs[first.job];
    const Ms claimed = job.alone ? job.takes.ms : job.attended.ms;
    if (first.start + claimed > then.start) return false;
    // Done first, it would make one wait that could as well come before it.
    const auto& followers = m_followers[first.job];
    return std::none_of(followers.begin(), followers.end(), [&](const Wait& follower) {
        return !follower.must && !progress.hasBegun(follower.job);
    });
}

std::vector<Step> Progression::steps(const Progress& progress, const Outlook& outlook) const {
    std::vector<Step> all;
    for (std::size_t job = 0; job < m_jobs.size(); ++job) {
        if (canBegin(progress, job)) all.push_back({job, outlook.ready[job]});
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Step& a, const Step& b) { return a.start < b.start; });
    std::vector<Step> kept;
    for (const Step& step : all) {
        const bool canWait = std::any_of(kept.begin(), kept.end(), [&](const Step& first) {
            return delaysNothing(progress, first, step);
        });
        if (!canWait) kept.push_back(step);
    }
    return kept;
}

Ms Progression::headOf(const Progress& progress, const Outlook& outlook, std::size_t index) const {
    Ms start = outlook.ready[index];
    for (const Wait& wait : m_waits[index]) {
        if (!wait.must || progress.hasBegun(wait.job)) continue;
        const Ms finish = outlook.heads[wait.job] + m_jobs[wait.job].takes.ms;
        start = std::max(start, finish + wait.wait);
    }
    // The person and the bench are to be free of all that comes before.
    Ms person = progress.person;
    Ms bench = std::max(progress.person, progress.bench);
    for (const std::size_t before : m_ancestors[index]) {
        if (progress.hasBegun(before)) continue;
        person += m_jobs[before].attended.ms;
        if (usesBench(before)) bench += m_jobs[before].takes.ms;
    }
    return std::max({start, person, usesBench(index) ? bench : start});
}

Outlook Progression::outlook(const Progress& progress) const {
    Outlook outlook;
    outlook.ready.resize(m_jobs.size());
    outlook.heads.resize(m_jobs.size());
    outlook.bound = progress.finish;
    for (const std::size_t index : m_topological) {
        if (progress.hasBegun(index)) continue;
        outlook.ready[index] = earliest(progress, index);
        const Ms head = outlook.heads[index] = headOf(progress, outlook, index);
        outlook.bound = std::max(outlook.bound, head + m_jobs[index].takes.ms + m_tails[index]);
    }
    outlook.bound = std::max(outlook.bound, boundOfResources(progress, outlook));
    return outlook;
}

Ms Progression::boundOfResources(const Progress& progress, const Outlook& outlook) const {
    Load ofPerson(m_jobs.size());
    for (const std::size_t job : m_byPersonTail) {
        if (progress.hasBegun(job)) continue;
        ofPerson.add({outlook.heads[job], m_jobs[job].attended.ms, m_personTails[job]});
    }
    Load ofBench(m_jobs.size());
    for (const std::size_t job : m_byTail) {
        if (progress.hasBegun(job) || !usesBench(job)) continue;
        ofBench.add({outlook.heads[job], m_jobs[job].takes.ms, m_tails[job]});
    }
    return std::max(ofPerson.finish(), ofBench.finish());
}

}  // namespace rules
