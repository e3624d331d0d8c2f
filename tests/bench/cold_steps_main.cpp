// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// airmuster_bench_steps LOGBOOK
// Where the time of a cold board goes: reading alone, and reading beside folding; wall time, with
// the time of the processor in brackets.
#include "rules/running_state.h"
#include "station/read_ahead.h"
#include "support/zones.h"

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <iostream>

namespace {

void measure(const char* what, const std::function<void()>& work) {
    const auto begin = std::chrono::steady_clock::now();
    const std::clock_t ticks = std::clock();
    work();
    const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - begin;
    const double cpu = static_cast<double>(std::clock() - ticks) / CLOCKS_PER_SEC;
    std::cout << what << ": " << wall.count() << " s (" << cpu << " s)" << std::endl;
}

template <class Take>
void forEach(const store::Logbook& logbook, store::Selection selection, Take take) {
    std::vector<store::ReadRecord> rows(1000);
    for (;;) {
        const auto count = logbook.readRecords(selection, rows);
        if (!count) std::exit(3);
        for (std::size_t index = 0; index < *count; ++index) take(rows[index]);
        if (*count < rows.size()) return;
        selection.after = rows.back().place;
    }
}

rules::Groundwork groundworkOf(const store::Logbook& logbook) {
    using Kinds = store::Selection::Kinds;
    std::vector<logbook::Record> founding;
    forEach(logbook, {.kinds = Kinds::Founding},
            [&](const store::ReadRecord& each) { founding.push_back(each.record); });
    rules::Groundwork groundwork(std::move(founding), support::zones());
    forEach(logbook, {.kinds = Kinds::Strikes},
            [&](const store::ReadRecord& each) { groundwork.addStrike(each.record); });
    return groundwork;
}

}  // namespace

int main(int count, char** words) {
    if (count != 2) {
        std::cerr << "airmuster_bench_steps LOGBOOK\n";
        return 2;
    }
    const auto logbook = store::Logbook::open(words[1], {});
    if (!logbook) return 3;
    std::optional<rules::Groundwork> groundwork;
    measure("groundwork", [&] { groundwork.emplace(groundworkOf(*logbook)); });
    measure("reading alone", [&] { forEach(*logbook, {}, [](const store::ReadRecord&) {}); });
    rules::RunningState running(*groundwork, rules::unlimited);
    timespec begin{}, end{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &begin);
    measure("reading beside folding", [&] {
        station::ReadAhead ahead(*logbook, {});
        std::vector<const logbook::Record*> records;
        for (auto rows = ahead.next(); rows && !rows->empty(); rows = ahead.next()) {
            records.clear();
            for (const auto& each : *rows) records.push_back(&each.record);
            running.add(records);
        }
    });
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &end);
    std::cout << "of that the thread that folds: "
              << static_cast<double>(end.tv_sec - begin.tv_sec) +
                     static_cast<double>(end.tv_nsec - begin.tv_nsec) / 1e9
              << " s\n";
    const auto& inRow = running.inRow();
    std::cout << inRow.records << " records folded unit by unit, "
              << static_cast<double>(inRow.records) / static_cast<double>(inRow.rows)
              << " of a unit in a row\n"
              << running.folded() << " records folded, " << running.state().devices.size()
              << " units, " << running.state().parts.size() << " parts\n";
    return 0;
}
