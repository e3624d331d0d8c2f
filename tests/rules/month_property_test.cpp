// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month on random logs: its totals, and each start classed again from the beginning of the log
// without any of the shortcuts that the month takes.
#include "support/describe.h"
#include "support/random_log.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20260401;

// All that is known before the record at `index`.
rules::State stateBefore(const rules::Log& log, std::size_t index, Instant knownAt) {
    rules::State state;
    state.rulebook = log.firstEdition();
    for (std::size_t each = 0; each < index; ++each) {
        if (log.takesPart(each, knownAt)) rules::fold(state, log.records()[each], log.editions());
    }
    return state;
}

struct Judged {
    bool enrolled = false;
    bool ready = false;
    std::string blocking;
};

Judged judgedOn(rules::State state, const logbook::Record& start, bool ignoreWaivers) {
    const auto* before = state.device(start.device);
    if (!before || before->retired) return {};
    rules::applyImpliedUseEnd(state, start);
    const auto group = std::get<logbook::body::UseStart>(start.body).group;
    auto found = rules::assess(state, *state.device(start.device),
                               {start.at, group, ignoreWaivers, false}).findings;
    std::erase_if(found, [](const auto& each) { return each.blocking() == rules::Blocks::No; });
    return {true, found.empty(), joined(found, [](const auto& each) { return describe(each); })};
}

// "class: findings" by semantics section 7, word for word.
std::string classed(const rules::Log& log, std::size_t index, Instant knownAt) {
    const auto& start = log.records()[index];
    const auto state = stateBefore(log, index, knownAt);
    const auto judged = judgedOn(state, start, false);
    if (!judged.ready) {
        const bool emergency = std::get<logbook::body::UseStart>(start.body).emergency;
        return (emergency ? "emergency: " : "noncompliant: ") + judged.blocking;
    }
    const Instant inTime = start.at + state.rulebook->lateEntryAfter;
    const auto known =
        judgedOn(stateBefore(log, index, std::min(inTime, knownAt)), start, false);
    if (!known.ready || start.entered > inTime) return "compliant_late: " + known.blocking;
    const auto unwaived = judgedOn(state, start, true);
    return unwaived.ready ? "compliant: " : "compliant_waived: " + unwaived.blocking;
}

std::map<std::size_t, std::string> classesOf(const rules::MonthAnswer& answer) {
    std::map<std::size_t, std::string> classes;
    for (const auto& each : answer.exceptions) {
        classes[each.record] =
            std::string(name(each.startClass)) + ": " +
            joined(each.findings, [](const auto& found) { return describe(found); });
    }
    return classes;
}

// The counted starts in the period, in order.
std::vector<std::size_t> startsIn(const rules::Log& log, const rules::MonthAnswer& answer,
                                  Instant knownAt) {
    std::vector<std::size_t> starts;
    rules::State state;
    state.rulebook = log.firstEdition();
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        if (!log.takesPart(index, knownAt)) continue;
        const auto& record = log.records()[index];
        const bool counted = rules::fold(state, record, log.editions()).countedStart;
        if (counted && record.at >= answer.from && record.at < answer.to) starts.push_back(index);
    }
    return starts;
}

void checkMonths(const rules::Log& log, Instant knownAt, std::map<std::string, int>& seen) {
    for (const auto month : {std::chrono::March, std::chrono::April}) {
        const std::chrono::year_month asked{std::chrono::year{2026}, month};
        const auto answer = rules::month(log, {asked, std::nullopt, knownAt});
        if (!answer) continue;
        const auto starts = startsIn(log, *answer, knownAt);
        REQUIRE(answer->allStarts() == static_cast<int>(starts.size()));
        REQUIRE(answer->starts[0] ==
                answer->allStarts() - static_cast<int>(answer->exceptions.size()));
        auto classes = classesOf(*answer);
        for (const std::size_t index : starts) {
            CAPTURE(toText(log.records()[index].name));
            const std::string found = classes.contains(index) ? classes[index] : "compliant: ";
            REQUIRE(found == classed(log, index, knownAt));
            ++seen[found.substr(0, found.find(':'))];
        }
    }
}

}  // namespace

TEST_CASE("every start is classed as it is from the beginning of the log", "[property]") {
    std::map<std::string, int> seen;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 150; ++seed) {
        CAPTURE(seed);
        RandomLog random(seed, {.records = 90});
        const auto log = toLog(random.log());
        checkMonths(log, rules::unlimited, seen);
        checkMonths(log, random.anyInstant(), seen);
        checkMonths(log, random.random().pick(log.records()).entered, seen);
    }
    CHECK(seen.size() == 5);  // each class came up
}

TEST_CASE("likewise in logs longer than the month keeps places for", "[property]") {
    std::map<std::string, int> seen;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 4; ++seed) {
        CAPTURE(seed);
        // So many devices and so few serials that some devices have nothing to do with others.
        const RandomShape shape{.records = 1300, .devices = 7, .serialsPercent = 8};
        RandomLog random(seed, shape);
        checkMonths(toLog(random.log()), rules::unlimited, seen);
    }
    CHECK_FALSE(seen.empty());
}
