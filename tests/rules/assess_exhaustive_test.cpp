// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// All short histories of one check against a model that looks back at the whole history instead of
// folding it.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

enum class Step { Pass, Fail, Incomplete, Void, PassElsewhere, VoidElsewhere };

constexpr int steps = 6;
constexpr std::int64_t minutesApart = 3;  // the tolerance between stations is 5

struct Model {
    std::string status;
    std::string reason;
    int restsOn = -1;      // index of the step; -1 for none
    int discounted = -1;
};

bool isPass(Step step) { return step == Step::Pass || step == Step::PassElsewhere; }
bool isVoid(Step step) { return step == Step::Void || step == Step::VoidElsewhere; }
bool isElsewhere(Step step) { return step == Step::PassElsewhere || step == Step::VoidElsewhere; }

template <class Wanted>
int lastOf(const std::vector<Step>& history, Wanted wanted) {
    for (int index = static_cast<int>(history.size()) - 1; index >= 0; --index) {
        if (wanted(history[static_cast<std::size_t>(index)])) return index;
    }
    return -1;
}

// No voiding or failure of the other station less than the tolerance before it.
bool isCertain(const std::vector<Step>& history, int pass) {
    for (int index = pass - 1; index >= 0 && (pass - index) * minutesApart < 5; --index) {
        const Step step = history[static_cast<std::size_t>(index)];
        const bool upsets = step == Step::Fail || isVoid(step);
        const bool byOther =
            isElsewhere(step) != isElsewhere(history[static_cast<std::size_t>(pass)]);
        if (upsets && byOther) return false;
    }
    return true;
}

Model modelOf(const std::vector<Step>& history) {
    Model model;
    const int failed = lastOf(history, [](Step step) { return step == Step::Fail; });
    const int passed = lastOf(history, isPass);
    const int voided = lastOf(history, isVoid);
    const int incomplete = lastOf(history, [](Step step) { return step == Step::Incomplete; });
    const int counted = std::max(failed, passed);
    bool follows = false;
    bool certainFollows = false;
    const int end = static_cast<int>(history.size());
    for (int index = std::max(voided, failed) + 1; index < end; ++index) {
        if (!isPass(history[static_cast<std::size_t>(index)])) continue;
        follows = true;
        certainFollows |= isCertain(history, index);
    }
    if (counted >= 0 && counted == failed) {
        model.status = "failed";
        model.restsOn = failed;
    } else if (counted < 0 || !follows) {
        model.status = "due";
        model.restsOn = voided;
    } else if (!certainFollows) {
        model.status = "due";
        model.reason = "order_uncertain";
        model.restsOn = std::max(voided, failed);
    } else {
        model.status = "current";
    }
    // A counted attempt after it clears it.
    if (incomplete > counted && incomplete > model.restsOn) model.discounted = incomplete;
    return model;
}

void write(LogBuilder& log, Step step) {
    Entry entry = log.on(device);
    entry.at(log.nextInstant() + minutes(minutesApart - 1));
    if (isElsewhere(step)) entry.station("icu-2");
    switch (step) {
    case Step::Pass:
    case Step::PassElsewhere: entry.pass("leak"); break;
    case Step::Fail: entry.fail("leak"); break;
    case Step::Incomplete: entry.check("leak", "incomplete"); break;
    case Step::Void:
    case Step::VoidElsewhere: entry.soil(); break;
    }
}

std::string nameOf(const LogBuilder& log, int step) {
    return step < 0 ? "" : toText(log.records()[static_cast<std::size_t>(step) + 2].name);
}

// Folded once, step by step, so that every beginning of the history is looked at.
void check(const LogBuilder& log, const rules::State& state, const std::vector<Step>& history) {
    const auto found = rules::assess(state, deviceOf(state), {when("20:00")});
    const Model model = modelOf(history);
    REQUIRE(status(found) == model.status);
    if (model.status == "current") {
        REQUIRE(found.findings.empty());
        return;
    }
    const auto& only = found.findings.at(0);
    REQUIRE(restsOn(only) == nameOf(log, model.restsOn));
    REQUIRE(only.reason == model.reason);
    const std::string discounted = only.discounted ? toText(only.discounted->record.name) : "";
    REQUIRE(discounted == nameOf(log, model.discounted));
}

int visit(const LogBuilder& log, const rules::State& state, const rules::Editions& editions,
          std::vector<Step>& history) {
    check(log, state, history);
    if (history.size() == 5) return 1;
    int visited = 1;
    for (int step = 0; step < steps; ++step) {
        LogBuilder next = log;
        write(next, static_cast<Step>(step));
        rules::State after = state;
        rules::fold(after, next.records().back(), editions);
        history.push_back(static_cast<Step>(step));
        visited += visit(next, after, editions, history);
        history.pop_back();
    }
    return visited;
}

}  // namespace

TEST_CASE("every history of one check of up to five steps", "[exhaustive]") {
    const LogBuilder log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]"));
    const auto all = toLog(log);
    std::vector<Step> history;
    CHECK(visit(log, all.stateAt(when("20:00"), rules::unlimited), all.editions(), history) ==
          1 + 6 + 36 + 216 + 1296 + 7776);
}
