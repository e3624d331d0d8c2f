// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// airmuster_bench_log FOLDER RECORDS UNITS RULEBOOK SEED
// Makes FOLDER/bench.logbook and FOLDER/bench.jsonl with the same records, and prints the instant
// after the last of them.
#include "bench/bulk_logbook.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

int main(int count, char** words) {
    if (count != 6) {
        std::cerr << "airmuster_bench_log FOLDER RECORDS UNITS RULEBOOK SEED\n";
        return 2;
    }
    const std::filesystem::path folder = words[1];
    std::ifstream rulebook(words[4]);
    bench::HospitalPlan plan;
    plan.records = std::atoll(words[2]);
    plan.units = std::atoi(words[3]);
    plan.rulebook.assign(std::istreambuf_iterator<char>(rulebook), {});
    plan.seed = static_cast<std::uint64_t>(std::atoll(words[5]));
    bench::BulkLogbook logbook(folder / "bench.logbook");
    std::ofstream lines(folder / "bench.jsonl", std::ios::binary);
    std::int64_t last = 0;
    bench::runHospital(plan, [&](const bench::WrittenRecord& record) {
        logbook.add(record);
        lines << record.content << '\n';
        last = record.enteredMs;
    });
    logbook.finish();
    lines.close();
    std::cout << bench::instantText(last + 1000 - last % 1000) << '\n';
    return lines ? 0 : 1;
}
