// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Measures the month, a trace, plans and the muster, and prints the times: those of the processor,
// so that other work on the computer changes them little. What was measured is told in
// docs/internals/performance.md.
#include "bench/circulating_log.h"
#include "bench/random_jobs.h"
#include "rules/month.h"
#include "rules/muster.h"
#include "rules/trace.h"
#include "support/rules_world.h"

#include <algorithm>
#include <ctime>
#include <functional>
#include <iostream>

using namespace support;

namespace {

double secondsOf(const std::function<void()>& work) {
    const std::clock_t before = std::clock();
    work();
    return static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
}

void measureMonth(const std::string& what, const bench::LogShape& shape) {
    const auto log = toLog(bench::circulatingLog(shape));
    const std::chrono::year_month march{std::chrono::year{2026}, std::chrono::March};
    int starts = 0, late = 0;
    const double month = secondsOf([&] {
        const auto answer = rules::month(log, {march, std::nullopt, rules::unlimited});
        starts = answer->allStarts();
        late = answer->starts[static_cast<std::size_t>(rules::StartClass::CompliantLate)];
    });
    const rules::TraceQuestion question{rules::TraceBy::Lot, "L1", when("03-31 23:00")};
    const double trace = secondsOf([&] { (void)rules::trace(log, question); });
    std::cout << what << ": " << log.records().size() << " records, " << starts << " starts, "
              << late << " compliant by late entries: month " << month << " s, trace of a lot "
              << trace << " s\n";
}

void measurePlans(int tasks) {
    constexpr std::uint32_t seeds = 100;
    constexpr std::uint64_t steps = 400'000;
    double sum = 0, worst = 0;
    for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
        const auto work = bench::randomJobs(seed, tasks);
        const double took = secondsOf([&] { (void)rules::bestSequence(work, steps); });
        sum += took;
        worst = std::max(worst, took);
    }
    std::cout << "plan of " << tasks << " tasks, " << seeds << " of them: on average "
              << sum / seeds << " s, at worst " << worst << " s\n";
}

std::string musterBook() {
    std::string sections;
    for (int number = 0; number < 6; ++number) {
        const std::string key = std::to_string(number);
        sections += "[positions.p" + key + "]\nrequired = true\ntakes = \"PT" +
                    std::to_string(40 + 37 * number) + "S\"\n[checks.c" + key +
                    "]\ntakes = \"PT" + std::to_string(2 + number) +
                    "M\"\nattended = \"PT1M\"\nvoided_by = [{ event = \"fit p" + key + "\" }]\n";
    }
    return book(sections);
}

void measureMuster(std::size_t wanted, std::size_t people) {
    LogBuilder log;
    log.adopt(musterBook());
    for (int unit = 0; unit < 60; ++unit) {
        const std::string serial = "KB-" + std::to_string(1000 + unit);
        log.on(serial).at("08:01").enrol({"adult"});
        for (int number = 0; number < 6; ++number) {
            const bool fitted = (unit * 7 + number * 3) % 5 == 0;
            if (fitted) log.on(serial).fit("p" + std::to_string(number));
        }
    }
    const auto state = stateOf(log, asked("23:00"));
    std::size_t units = 0;
    const double took = secondsOf([&] {
        units = rules::muster(state, {when("23:00"), "adult", wanted, people, {}}).units.size();
    });
    std::cout << "muster of " << units << " of 60 units by " << people << ": " << took << " s\n";
}

}  // namespace

int main() {
    std::cout << std::unitbuf;
    measureMonth("plain", {});
    measureMonth("one very late", {.veryLate = true});
    measureMonth("5 % late, 1 % struck", {.latePercent = 5, .struckPercent = 1});
    measureMonth("likewise with many rules",
                 {.latePercent = 5, .struckPercent = 1, .manyRules = true});
    measurePlans(12);
    measurePlans(20);
    measureMuster(6, 2);
    measureMuster(12, 5);
}
