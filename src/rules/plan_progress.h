// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Orders of a plan's tasks as far as they have been begun: what can begin next, how early, and how
// early all can be finished at best. For plan_sequence.cpp only, which does the searching.
#pragma once

#include "rules/plan_order.h"

#include <cstdint>
#include <limits>
#include <vector>

namespace rules {

using Ms = std::int64_t;  // instants and spans, in milliseconds

// Where an order begun has come to.
struct Progress {
    Ms person = 0;             // free from
    Ms bench = 0;              // no check under way from
    Ms finish = 0;             // of all so far
    std::vector<Ms> finishes;  // by job; `notBegun` before that

    static constexpr Ms notBegun = std::numeric_limits<Ms>::min() / 4;
    [[nodiscard]] bool hasBegun(std::size_t job) const { return finishes[job] != notBegun; }
};

// What is still to come. By job; of those that have begun the numbers mean nothing.
struct Outlook {
    Ms bound = 0;           // no order that begins so finishes earlier
    std::vector<Ms> ready;  // as early as what has begun allows
    std::vector<Ms> heads;  // no earlier than this, since others must come before
};

struct Step {
    std::size_t job;
    Ms start;
};

class Progression {
public:
    // `sequencing` outlives this; it is orderable.
    explicit Progression(const Sequencing& sequencing);

    [[nodiscard]] const std::vector<Job>& jobs() const { return m_jobs; }
    [[nodiscard]] Progress begin() const;
    [[nodiscard]] bool isComplete(const Progress& progress) const;
    [[nodiscard]] Outlook outlook(const Progress& progress) const;

    // As early as what has begun allows; so `after` begins the job, whose predecessors have begun.
    [[nodiscard]] Ms earliest(const Progress& progress, std::size_t job) const;
    [[nodiscard]] Progress after(const Progress& progress, const Step& step) const;

    // The tasks that can begin next, by (start, kind, name). Left out are those before which
    // another, earlier in that order, can be done without delaying anything (some order that begins
    // with that one is as good and sorts first), and those that are like another but for the name.
    [[nodiscard]] std::vector<Step> steps(const Progress& progress, const Outlook& outlook) const;

    // The time from the finish of the job to the finish of all that can only follow it, at least.
    [[nodiscard]] Ms tail(std::size_t job) const { return m_tails[job]; }

private:
    // A wait from the finish of the other job on.
    struct Wait {
        std::size_t job;
        Ms wait;
        bool must;  // the one that waits cannot begin before
        auto operator<=>(const Wait&) const = default;
    };

    bool usesBench(std::size_t job) const { return m_jobs[job].alone || m_jobs[job].meansHandsOff; }
    void findWaits();
    void sortTopologically();
    void findAncestors();
    void findTails();
    Ms tailOf(std::size_t job) const;
    void sortByTail();
    void findTwins();
    bool areTwins(std::size_t first, std::size_t second) const;
    bool canBegin(const Progress& progress, std::size_t job) const;
    bool delaysNothing(const Progress& progress, const Step& first, const Step& then) const;
    Ms headOf(const Progress& progress, const Outlook& outlook, std::size_t job) const;
    Ms boundOfResources(const Progress& progress, const Outlook& outlook) const;

    const std::vector<Job>& m_jobs;
    Ms m_from;
    std::vector<std::vector<Wait>> m_waits;             // on others, by job
    std::vector<std::vector<Wait>> m_followers;         // the same the other way round
    std::vector<std::vector<std::size_t>> m_ancestors;  // all that come before
    std::vector<std::size_t> m_topological;
    std::vector<Ms> m_tails;
    std::vector<Ms> m_personTails;                         // from the end of the attended time
    std::vector<std::size_t> m_byPersonTail, m_byTail;     // the longest first
    std::vector<std::vector<std::size_t>> m_earlierTwins;  // begun before, for no loss
};

}  // namespace rules
