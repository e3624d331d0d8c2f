// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Plans by a second model, to compare with: written apart from the engine's, slow and plain. It
// tries every order of the tasks. Of the rules engine it uses what is tested elsewhere: the state
// of a device, and the findings on parts that no task touches.
#pragma once

#include "rules/assess.h"
#include "rules/plan.h"

#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace plan_reference {

using rules::Duration;
using rules::Instant;
using rules::TaskKind;

// What has to be done, each by its position or check.
struct Tasks {
    bool group = false;
    bool powerOn = false;
    std::set<std::string> reprocesses;
    std::set<std::string> removedForChoice;
    std::set<std::string> newParts;
    std::set<std::string> closing;   // goes in last; a new part if among those, else the same
    std::set<std::string> takenOut;  // of the closing ones those that are in now
    std::set<std::string> checks;

    [[nodiscard]] std::size_t count() const;
};

struct Step {
    TaskKind kind{};
    std::string name;
    Duration takes{};
    Duration attended{};
};

// Step `first` is finished before step `then` starts, and so much longer.
struct Wait {
    std::size_t first;
    std::size_t then;
    Duration wait{};
    bool must = true;  // false: only if `first` happens to come first
};

struct Problem {
    Instant from{};
    std::vector<Step> steps;
    std::vector<Wait> waits;
    std::vector<std::optional<Instant>> notBefore;  // by step
    bool contradiction = false;  // a check that must come both before and after a closing fit
};

struct Question {
    const rules::State& state;
    const rules::Device& device;
    Instant at{};
    std::string group;
};

// The tasks, and what would still block after them.
[[nodiscard]] Tasks tasksOf(const Question& question);
[[nodiscard]] std::set<std::string> blockersOf(const Question& question, const Tasks& tasks);

[[nodiscard]] Problem problemOf(const Question& question, const Tasks& tasks);

// When each step of an order starts, the order as indices of steps; none if it is not allowed.
[[nodiscard]] std::optional<std::vector<Instant>> startsOf(const Problem& problem,
                                                           const std::vector<std::size_t>& order);

struct Best {
    std::vector<std::pair<std::size_t, Instant>> steps;  // with their starts
    Instant finish{};
};

// Of all orders; none if none is allowed.
[[nodiscard]] std::optional<Best> bestOf(const Problem& problem);

// "fit hme 2026-03-02T10:00:00Z 2026-03-02T10:01:00Z", one to a line.
[[nodiscard]] std::string toText(const Problem& problem, const Best& best);
[[nodiscard]] std::string toText(const std::vector<rules::Task>& tasks);

}  // namespace plan_reference
