// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By the search for tasks that plans have, on a state in which all other checks are current; see
// change.h.
#include "rules/change.h"

#include "rules/findings.h"
#include "rules/plan_order.h"

namespace rules {
namespace {

// Few tasks: enough to prove the order of more than there ever are.
constexpr std::uint64_t searchSteps = 20'000;

class ChangeFinder {
public:
    ChangeFinder(const State& state, const Device& device, Instant at)
        : m_own(state.excerpt({device.serial})), m_serial(device.serial), m_at(at) {
        auto& own = edit(m_own);
        if (own.use) own.use->paused = true;
    }

    std::vector<Task> find(const Change& change) {
        auto open = change.checks;
        for (;;) {
            const State assumed = withCurrent(open);
            const auto group = assumed.device(m_serial)->group();
            const PlanQuestion question{assumed,     m_serial, m_at, group, change.fits,
                                        change.mindsParts};
            const auto tasks = findTasks(question);
            if (!addOpen(open, tasks)) return inOrder(question, tasks);
        }
    }

private:
    Device& edit(State& state) const { return state.devices.find(m_serial)->second.edit(); }

    // All checks but those.
    State withCurrent(const std::set<std::string>& open) const {
        State assumed = m_own;
        auto& device = edit(assumed);
        for (const auto& check : assumed.rulebook->checks) {
            if (open.contains(check.key)) continue;
            auto& state = device.checks[check.key];
            state.last = RecordRef{m_at, m_at, {}};
            state.lastFailed = false;
            state.passFollows = state.certainPassFollows = true;
            state.discounted.reset();
        }
        return assumed;
    }

    // What one of the checks is to come after, if that is not current; true if there is more now.
    bool addOpen(std::set<std::string>& open, const TaskSet& tasks) const {
        bool isMore = false;
        const auto& rulebook = *m_own.rulebook;
        for (const auto& key : tasks.checks) {
            for (const auto& before : rulebook.check(key)->after) {
                const auto status =
                    statusOf(m_own, *m_own.device(m_serial), *rulebook.check(before), m_at);
                const bool stands = status == CheckStatus::Current || status == CheckStatus::Exempt;
                if (!stands) isMore |= open.insert(before).second;
            }
        }
        return isMore;
    }

    static std::vector<Task> inOrder(const PlanQuestion& question, const TaskSet& tasks) {
        const auto sequencing = sequencingOf(question, tasks);
        if (!sequencing.orderable) return {};
        return bestSequence(sequencing, searchSteps).tasks;
    }

    State m_own;
    std::string m_serial;
    Instant m_at;
};

}  // namespace

std::vector<Task> tasksOf(const State& state, const Device& device, Instant at,
                          const Change& change) {
    return ChangeFinder(state, device, at).find(change);
}

}  // namespace rules
