// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The demo as a logbook file; see sample.h.
#include "station/sample.h"

#include "rules/rulebook_reader.h"
#include "station/demo.h"

#include <utility>

namespace station {

namespace {

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
    return {};
}

Result<SampleAnswer> fill(const Surroundings& surroundings, const LogbookFile& file,
                          const DemoOptions& options) {
    const auto& scenario = kestrelBay();
    const auto reading =
        rules::readRulebook(scenario.editions.front().text, surroundings.zones);
    if (!reading.rulebook) {
        auto problem = problemOf(surroundings.words, "demo.no_zone");
        problem.details = remarkLines(surroundings.words, reading.faults);
        return tl::unexpected(std::move(problem));
    }
    const auto records = makeDemo(scenario, options, *reading.rulebook->zone);
    auto logbook = openLogbook(surroundings, file, Access::Create);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    const store::Writing writing{surroundings.login, surroundings.clock.now()};
    const auto added = logbook->append(records, writing);
    if (!added) {
        return tl::unexpected(problemOf(surroundings.words, added.error()));
    }
    if (const auto named = logbook->setStation(demoStation, writing); !named) {
        return tl::unexpected(problemOf(surroundings.words, named.error()));
    }
    return SampleAnswer{added->added, options.end};
}

}  // namespace

Result<SampleAnswer> makeSample(const Surroundings& surroundings, const LogbookFile& file,
                                const SampleOptions& options) {
    const bool isThere = system::exists(file.path);
    if (isThere && !options.fresh) {
        return tl::unexpected(problemOf(surroundings.words, "demo.exists",
                                        {{"path", file.path.string()}}));
    }
    if (isThere) {
        if (auto demo = requireDemo(surroundings, file); !demo) {
            return tl::unexpected(std::move(demo.error()));
        }
    }
    auto made = file;
    made.path += ".new";
    system::removeFile(made.path);
    const DemoOptions demo{options.seed, options.end.value_or(surroundings.clock.now())};
    auto answer = fill(surroundings, made, demo);
    if (!answer) {
        system::removeFile(made.path);
        return answer;
    }
    if (const auto moved = system::replaceFile(made.path, file.path); !moved) {
        system::removeFile(made.path);
        return tl::unexpected(problemOf(surroundings.words, moved.error(), file.path));
    }
    return answer;
}

}  // namespace station
