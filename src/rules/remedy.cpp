// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit kept ready: its plans carried out one after the other, or all at once; see remedy.h.
#include "rules/remedy.h"

#include <algorithm>
#include <utility>

namespace rules {
namespace {

// A session, the state after it, and until when the unit is ready then.
struct Outcome {
    Session session;
    State after;
    bool ready = false;
    std::optional<Instant> readyUntil;
};

// What is done, and by when.
struct Aim {
    Instant lacking{};  // what the unit lacks then, if nothing is done
    Instant deadline{};
    Instant earliest{};  // not begun before
};

Session sessionOf(const Plan& way, bool isOn) {
    Session session;
    session.begin = isOn ? way.tasks.front().start : way.from;
    session.by = *way.readyAt;
    session.tasks = way.tasks;
    for (const Task& task : way.tasks) session.attended.ms += (task.attended - task.start).ms;
    return session;
}

// The same work later as a whole. None of it waits for anything.
Plan later(Plan way, Duration by) {
    way.from = way.from + by;
    way.readyAt = *way.readyAt + by;
    for (Task& task : way.tasks) {
        task.start = task.start + by;
        task.attended = task.attended + by;
        task.finish = task.finish + by;
    }
    return way;
}

// Beginnings tried where something waits: as a rule the first is right.
constexpr int mostBeginnings = 8;

// A plan that is done by the deadline, begun as late as that allows, as far as it is found; or the
// soonest, if that is no earlier. What stands now is waited for to the same instant whenever the
// work begins, so it is planned anew for each beginning.
Plan begunLate(const RemedyQuestion& question, const State& state, const Aim& aim) {
    const Device& device = *state.device(question.device);
    const auto begunAt = [&](Instant from) {
        return planAhead(state, device, {from, aim.lacking}, question.group);
    };
    const Plan soonest = begunAt(aim.earliest);
    if (!soonest.readyAt || *soonest.readyAt >= aim.deadline) return soonest;
    const bool waits = std::any_of(soonest.tasks.begin(), soonest.tasks.end(),
                                   [](const Task& task) { return task.notBefore.has_value(); });
    if (!waits) return later(soonest, aim.deadline - *soonest.readyAt);
    const auto shortest = *begunAt(aim.deadline).readyAt - aim.deadline;
    Instant from = aim.deadline - shortest;
    for (int tried = 0; tried < mostBeginnings && from > aim.earliest; ++tried) {
        Plan way = begunAt(from);
        if (*way.readyAt <= aim.deadline) return way;
        from = from - (*way.readyAt - aim.deadline);
    }
    return soonest;
}

// The plan of what is lacking, done by the deadline, or as soon after it as there is time. None if
// there is no plan.
std::optional<Outcome> carryOut(const RemedyQuestion& question, const State& state,
                                const Aim& aim) {
    const Plan way = begunLate(question, state, aim);
    if (!way.readyAt || way.tasks.empty()) return std::nullopt;
    const bool isOn = state.device(question.device)->poweredSince.has_value();
    Outcome outcome{sessionOf(way, isOn), stateAfter(state, way, aim.lacking), false, std::nullopt};
    const Instant by = outcome.session.by;
    const auto then = assess(outcome.after, *outcome.after.device(question.device), {by});
    outcome.ready = then.verdict == Verdict::Ready && then.group == question.group;
    outcome.readyUntil = then.readyUntil;
    return outcome;
}

// The same, with what lapses while it is done. None if the unit is not ready then.
std::optional<Outcome> makeReady(const RemedyQuestion& question, const State& state, Aim aim) {
    for (auto outcome = carryOut(question, state, aim); outcome;
         outcome = carryOut(question, state, aim)) {
        if (outcome->ready) return outcome;
        if (outcome->session.by <= aim.lacking) break;
        aim.lacking = outcome->session.by;
    }
    return std::nullopt;
}

bool lasts(const RemedyQuestion& question, const Outcome& outcome) {
    return !outcome.readyUntil || *outcome.readyUntil > question.to;
}

void add(Remedy& remedy, Session session) {
    remedy.attended.ms += session.attended.ms;
    remedy.sessions.push_back(std::move(session));
}

Remedy emptyRemedy(const RemedyQuestion& question) {
    return {question.device, question.lapse.has_value(), {}, {}, {}};
}

// What is done when something lapses: that alone, or also what lapses before it is due again.
enum class Reach { Lapsed, Round };

// A session's work made wider, as long as that brings more of it.
std::optional<Outcome> reachFurther(const RemedyQuestion& question, const State& state, Aim aim,
                                    Outcome outcome) {
    while (!lasts(question, outcome)) {
        aim.lacking = *outcome.readyUntil;
        auto wider = makeReady(question, state, aim);
        if (!wider || wider->session.tasks.size() <= outcome.session.tasks.size()) break;
        outcome = std::move(*wider);
    }
    return outcome;
}

std::optional<Outcome> sessionFor(const RemedyQuestion& question, const State& state,
                                  const Aim& aim, Reach reach) {
    auto outcome = makeReady(question, state, aim);
    if (!outcome || reach == Reach::Lapsed) return outcome;
    return reachFurther(question, state, aim, std::move(*outcome));
}

// A session each time something lapses. Where the next could not be done in time, what lapses then
// goes with the one before.
std::optional<Remedy> inSessions(const RemedyQuestion& question, Reach reach) {
    Remedy remedy = emptyRemedy(question);
    const Instant first = question.lapse.value_or(question.from);
    Aim aim{first, first, question.from};
    State before = question.state;
    auto outcome = sessionFor(question, before, aim, reach);
    while (outcome) {
        if (lasts(question, *outcome)) {
            add(remedy, std::move(outcome->session));
            return remedy;
        }
        if (remedy.sessions.size() + 1 == mostSessions) return std::nullopt;
        const Instant next = *outcome->readyUntil;
        const Aim nextAim{next, next, outcome->session.by};
        auto following = sessionFor(question, outcome->after, nextAim, reach);
        if (following && following->session.by > next) {
            aim.lacking = next;
            outcome = makeReady(question, before, aim);
            continue;
        }
        add(remedy, std::move(outcome->session));
        before = std::move(outcome->after);
        aim = nextAim;
        outcome = std::move(following);
    }
    return std::nullopt;
}

// All that lapses to the end, at the first.
std::optional<Remedy> allAtOnce(const RemedyQuestion& question) {
    const Instant first = question.lapse.value_or(question.from);
    auto outcome = makeReady(question, question.state, {question.to, first, question.from});
    if (!outcome || !lasts(question, *outcome)) return std::nullopt;
    Remedy remedy = emptyRemedy(question);
    add(remedy, std::move(outcome->session));
    return remedy;
}

// The one that asks less of a person; else the one of fewer sessions.
void takeBetter(std::optional<Remedy>& best, std::optional<Remedy> other) {
    if (!other) return;
    const auto weight = [](const Remedy& remedy) {
        return std::pair(remedy.attended, remedy.sessions.size());
    };
    if (!best || weight(*other) < weight(*best)) best = std::move(other);
}

}  // namespace

std::optional<Remedy> remedyFor(const RemedyQuestion& question) {
    auto best = inSessions(question, Reach::Lapsed);
    if (!best || best->sessions.size() > 1) {
        takeBetter(best, inSessions(question, Reach::Round));
        takeBetter(best, allAtOnce(question));
    }
    if (best) best->from = best->sessions.front().by;
    return best;
}

}  // namespace rules
