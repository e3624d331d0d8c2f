// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// airmuster_bench_append LOGBOOK REFERENCE COUNT END
//   One entry after the other in an open program: on the disk, and the unit's new verdict; each
//   beside one durable insert of the same row into the plain table. Prints the medians in
//   milliseconds and their ratio.
// airmuster_bench_append LOGBOOK act COUNT END
//   The same as a person does it at the window: a fault is stated, signed, held against the log and
//   kept, and the unit has its new verdict. Prints the median in milliseconds.
// airmuster_bench_append LOGBOOK late COUNT END
//   Adds that many entries of up to three days before END, and prints nothing.
#include "logbook/record_reader.h"
#include "rules/assess.h"
#include "station/entry.h"
#include "station/open.h"
#include "station/standing_source.h"
#include "support/moved_clock.h"
#include "support/zones.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <iostream>
#include <random>
#include <string>
#include <vector>

namespace {

void require(bool isSo, const std::string& what) {
    if (isSo) return;
    std::cerr << what << '\n';
    std::exit(3);
}

double msOf(std::chrono::steady_clock::duration duration) {
    return std::chrono::duration<double, std::milli>(duration).count();
}

double medianOf(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values.at(values.size() / 2);
}

logbook::Record checkOf(const logbook::RecordName& name, const std::string& device,
                        logbook::Instant at, logbook::Instant entered) {
    const auto record = logbook::readRecord(
        R"({"station":")" + name.station + R"(","seq":)" + std::to_string(name.seq) +
        R"(,"at":")" + toText(at) + R"(","entered":")" + toText(entered) +
        R"(","by":"p00","device":")" + device +
        R"(","kind":"check","body":{"check":"leak","outcome":"pass",)"
        R"("conditions":["gas_supply","mains_power"],)"
        R"("measures":{"leak":{"unit":"mL/min","value":40}}}})");
    require(record.has_value(), "the entry made up here is none");
    return *record;
}

struct Bench {
    Bench(logbook::Instant now, station::LogbookFile path, store::Logbook open)
        : clock(now), file(std::move(path)), logbook(std::move(open)) {}

    support::MovedClock clock;
    station::Surroundings surroundings{clock, support::zones(), *words::Words::builtIn(), "bench"};
    station::LogbookFile file;
    store::Logbook logbook;
    std::vector<std::string> units{};

    // A station to write as, and the units that are there.
    void prepare() {
        require(logbook.setStation("bench", {"p00", clock.now()}).has_value(), "no station");
        const auto standing = station::standing(surroundings, file, {});
        require(standing.has_value(), "no answer");
        for (const auto& [serial, device] : standing->state.devices) {
            if (!device->retired) units.push_back(serial);
        }
    }

    logbook::Record append(const std::string& unit, logbook::Instant at) {
        std::vector<logbook::Record> written;
        const auto done = logbook.appendOwn(
            [&](const logbook::RecordName& name) {
                written = {checkOf(name, unit, at, clock.now())};
                return written;
            },
            {"p00", clock.now()});
        require(done.has_value(), "an entry was refused");
        return written.front();
    }
};

void addLate(Bench& bench, int count) {
    std::mt19937 random(20261128);
    std::vector<logbook::Record> records;
    const auto done = bench.logbook.appendOwn(
        [&](const logbook::RecordName& first) {
            auto name = first;
            for (int number = 0; number < count; ++number, ++name.seq) {
                const logbook::Duration before{static_cast<std::int64_t>(random() % 259'200) *
                                               1000};
                records.push_back(checkOf(name, bench.units[random() % bench.units.size()],
                                          bench.clock.now() - before, bench.clock.now()));
            }
            return records;
        },
        {"p00", bench.clock.now()});
    require(done.has_value(), "late entries were refused");
}

void insertInto(SQLite::Database& reference, const logbook::Record& record) {
    SQLite::Transaction transaction(reference, SQLite::TransactionBehavior::IMMEDIATE);
    SQLite::Statement insert(reference, "INSERT INTO reference VALUES (?, ?, ?, ?, ?, 'check', ?,"
                                        " json_extract(?, '$.body'), randomblob(32))");
    insert.bind(1, record.name.station);
    insert.bind(2, record.name.seq);
    insert.bind(3, toText(record.at));
    insert.bind(4, toText(record.entered));
    insert.bind(5, record.device);
    insert.bind(6, record.by);
    insert.bind(7, record.content);
    insert.exec();
    transaction.commit();
}

void appendInTurns(Bench& bench, const std::string& path, int count) {
    SQLite::Database reference(path, SQLite::OPEN_READWRITE);
    reference.exec("PRAGMA synchronous = EXTRA");
    auto source = station::StandingSource::open(bench.surroundings, bench.file);
    require(source && (*source)->ask({}).has_value(), "no answer");
    std::vector<double> own, plain;
    for (int number = 0; number < count; ++number) {
        bench.clock.advance(logbook::Duration{1000});
        const auto& unit = bench.units[static_cast<std::size_t>(number) % bench.units.size()];
        const auto begin = std::chrono::steady_clock::now();
        const auto record = bench.append(unit, bench.clock.now());
        const auto standing = (*source)->askAbout(unit, {});
        require(standing && standing->folded == 1, "more was folded than the entry");
        const auto verdict =
            rules::assess(standing->state, *standing->state.device(unit), {standing->at, {}});
        const auto middle = std::chrono::steady_clock::now();
        require(verdict.last && verdict.last->name == record.name, "the entry is not seen");
        insertInto(reference, record);
        own.push_back(msOf(middle - begin));
        plain.push_back(msOf(std::chrono::steady_clock::now() - middle));
    }
    std::cout << medianOf(own) << ' ' << medianOf(plain) << ' '
              << medianOf(own) / medianOf(plain) << '\n';
}

void actInTurns(Bench& bench, int count) {
    auto source = station::StandingSource::open(bench.surroundings, bench.file);
    require(source && (*source)->ask({}).has_value(), "no answer");
    bench.clock.advance(logbook::Duration{3'600'000});  // behind whatever was appended before
    std::vector<double> taken;
    for (int number = 0; number < count; ++number) {
        bench.clock.advance(logbook::Duration{1000});
        const auto& unit = bench.units[static_cast<std::size_t>(number) % bench.units.size()];
        const auto begin = std::chrono::steady_clock::now();
        const auto written = station::writeEntry(
            bench.surroundings, bench.file,
            {.by = {"p00"}, .kind = "fault", .device = unit, .body = {{"code", "display"}}});
        require(written.has_value(), "an act was refused");
        const auto standing = (*source)->askAbout(unit, {});
        require(standing && standing->folded == 1, "more was folded than the entry");
        const auto verdict =
            rules::assess(standing->state, *standing->state.device(unit), {standing->at, {}});
        taken.push_back(msOf(std::chrono::steady_clock::now() - begin));
        require(verdict.last && verdict.last->name == written->record, "the act is not seen");
    }
    std::cout << medianOf(taken) << '\n';
}

}  // namespace

int main(int count, char** words) {
    require(count == 5, "airmuster_bench_append LOGBOOK REFERENCE|act|late COUNT END");
    const auto end = logbook::parseInstant(words[4]);
    require(end.has_value(), "no instant");
    auto logbook = store::Logbook::open(words[1], {.access = store::OpenOptions::Access::Write});
    require(logbook.has_value(), "the logbook cannot be opened");
    Bench bench(*end, {words[1]}, std::move(*logbook));
    bench.prepare();
    const std::string_view what = words[2];
    if (what == "late") {
        addLate(bench, std::atoi(words[3]));
    } else if (what == "act") {
        actInTurns(bench, std::atoi(words[3]));
    } else {
        appendInTurns(bench, words[2], std::atoi(words[3]));
    }
    return 0;
}
