// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The demo as a logbook file; see sample.h.
#include "station/sample.h"

#include "rules/rulebook_reader.h"
#include "station/demo.h"
#include "store/credentials.h"

#include <algorithm>
#include <chrono>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace station {

namespace {

std::set<std::string, std::less<>> stationsOfDemo() {
    std::set<std::string, std::less<>> stations{std::string(demoStation)};
    for (const auto& [key, area] : kestrelBay().areas) {
        stations.insert({area.bedside, area.prepare});
    }
    return stations;
}

// Nothing that anyone relies on is ever replaced.
Result<void> requireDemo(const Surroundings& surroundings, const LogbookFile& file) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto own = logbook->station();
    if (!own) {
        return tl::unexpected(problemOf(surroundings.words, own.error()));
    }
    if (*own != demoStation) {
        return tl::unexpected(problemOf(surroundings.words, "demo.no_demo",
                                        {{"path", file.path.string()}}));
    }
    const auto heads = logbook->heads();
    if (!heads) {
        return tl::unexpected(problemOf(surroundings.words, heads.error()));
    }
    const auto known = stationsOfDemo();
    std::vector<std::string> others;
    for (const auto& [station, head] : *heads) {
        if (!known.contains(station)) {
            others.push_back(station);
        }
    }
    if (!others.empty()) {
        return tl::unexpected(problemOf(surroundings.words, "demo.others",
                                        {{"path", file.path.string()},
                                         {"stations", surroundings.words.all(others)}}));
    }
    return {};
}

Result<void> requireEnd(const Surroundings& surroundings, logbook::Instant end) {
    using std::chrono::milliseconds;
    const std::chrono::sys_time<milliseconds> point(milliseconds(end.ms));
    const std::chrono::year_month_day day(std::chrono::floor<std::chrono::days>(point));
    const auto year = static_cast<int>(day.year());
    if (year >= firstDemoYear && year <= lastDemoYear) {
        return {};
    }
    return tl::unexpected(problemOf(surroundings.words, "demo.bad_end",
                                    {{"time", toText(end)},
                                     {"first", std::to_string(firstDemoYear)},
                                     {"last", std::to_string(lastDemoYear)}}));
}

Result<std::vector<logbook::Record>> recordsOf(const Surroundings& surroundings,
                                               const DemoOptions& options) {
    const auto& scenario = kestrelBay();
    const auto reading =
        rules::readRulebook(scenario.editions.front().text, surroundings.zones);
    if (!reading.rulebook) {
        auto problem = problemOf(surroundings.words, "demo.no_zone");
        problem.details = remarkLines(surroundings.words, reading.faults);
        return tl::unexpected(std::move(problem));
    }
    return makeDemo(scenario, options, *reading.rulebook->zone);
}

// The station first: what is cut off afterwards can be told for a demo and replaced.
Result<std::int64_t> fill(const Surroundings& surroundings, store::Logbook& logbook,
                          const std::vector<logbook::Record>& records) {
    const store::Writing writing{surroundings.login, surroundings.clock.now()};
    if (const auto named = logbook.setStation(demoStation, writing); !named) {
        return tl::unexpected(problemOf(surroundings.words, named.error()));
    }
    const auto added = logbook.append(records, writing);
    if (!added) {
        return tl::unexpected(problemOf(surroundings.words, added.error()));
    }
    return added->added;
}

// Everybody can be tried: their PINs stand in the scenario and in the README.
Result<void> setPins(const Surroundings& surroundings, const LogbookFile& file) {
    store::Pins pins;
    for (const auto& person : kestrelBay().persons) {
        if (!person.pin.empty()) {
            pins.emplace_back(person.key, person.pin);
        }
    }
    const auto set =
        store::Credentials(file.path, file.trustLocks)
            .setPins(pins, {std::string(demoStation), surroundings.clock.now()});
    if (!set) {
        return tl::unexpected(problemOf(surroundings.words, set.error()));
    }
    return {};
}

// Makes a logbook of that very name or none; never writes over a file, nor removes another's.
Result<std::int64_t> makeNew(const Surroundings& surroundings, const LogbookFile& file,
                             const std::vector<logbook::Record>& records) {
    bool made = false;
    auto added = [&]() -> Result<std::int64_t> {
        auto logbook = openLogbook(surroundings, file, Access::Create);
        if (!logbook) {
            return tl::unexpected(std::move(logbook.error()));
        }
        made = true;
        auto filled = fill(surroundings, *logbook, records);
        if (auto set = setPins(surroundings, file); filled && !set) {
            return tl::unexpected(std::move(set.error()));
        }
        return filled;
    }();
    if (!added && made) {
        system::removeFile(file.path);
    }
    return added;
}

// Under another name beside the old one, which it replaces once it is whole.
Result<std::int64_t> makeFresh(const Surroundings& surroundings, const LogbookFile& file,
                               const std::vector<logbook::Record>& records) {
    if (auto demo = requireDemo(surroundings, file); !demo) {
        return tl::unexpected(std::move(demo.error()));
    }
    constexpr int mostTries = 100;
    auto made = file;
    made.path += ".fresh";
    auto added = makeNew(surroundings, made, records);
    for (int number = 2; !added && added.error().code == "trouble.exists" && number <= mostTries;
         ++number) {
        made.path = file.path;
        made.path += ".fresh-" + std::to_string(number);
        added = makeNew(surroundings, made, records);
    }
    if (!added) {
        return added;
    }
    if (const auto moved = system::replaceFile(made.path, file.path); !moved) {
        system::removeFile(made.path);
        return tl::unexpected(problemOf(surroundings.words, moved.error(), file.path));
    }
    return added;
}

}  // namespace

bool isSample(const LogbookFacts& facts) {
    return facts.ownStation == demoStation;
}

std::vector<SamplePerson> samplePeople() {
    std::vector<std::pair<std::size_t, SamplePerson>> people;
    for (const auto& person : kestrelBay().persons)
        if (!person.pin.empty())
            people.emplace_back(person.roles.size(),
                                SamplePerson{person.key, person.name, person.pin});
    std::ranges::stable_sort(people, std::ranges::greater{},
                             [](const auto& each) { return each.first; });
    std::vector<SamplePerson> sorted;
    for (auto& each : people) sorted.push_back(std::move(each.second));
    return sorted;
}

Result<SampleAnswer> makeSample(const Surroundings& surroundings, const LogbookFile& file,
                                const SampleOptions& options) {
    const bool isThere = system::exists(file.path);
    if (isThere && !options.fresh) {
        return tl::unexpected(problemOf(surroundings.words, "demo.exists",
                                        {{"path", file.path.string()}}));
    }
    const DemoOptions demo{options.seed, options.end.value_or(surroundings.clock.now())};
    if (auto end = requireEnd(surroundings, demo.end); !end) {
        return tl::unexpected(std::move(end.error()));
    }
    const auto records = recordsOf(surroundings, demo);
    if (!records) {
        return tl::unexpected(records.error());
    }
    const auto added = isThere ? makeFresh(surroundings, file, *records)
                               : makeNew(surroundings, file, *records);
    if (!added) {
        return tl::unexpected(added.error());
    }
    return SampleAnswer{*added, demo.end};
}

}  // namespace station
