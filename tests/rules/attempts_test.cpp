// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which attempts did not count, from what bears on one device, against the whole log folded.
#include "rules/attempts.h"

#include "rules/running_state.h"
#include "support/random_log.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20261129;

// "icu-1/7: in_line hme, order leak"; without effect "icu-1/7".
std::string told(const logbook::Record& record, const rules::Discounted* discounted) {
    auto text = logbook::toText(record.name);
    if (discounted == nullptr) return text;
    for (const auto& reason : discounted->reasons) text += ": " + reason;
    return text;
}

using Told = std::vector<std::string>;

Told fromDevice(const rules::Log& log, const rules::AttemptsQuestion& question) {
    Told all;
    rules::forEachUncounted(log, question, [&](const rules::UncountedAttempt& attempt) {
        all.push_back(told(attempt.record, attempt.discounted));
    });
    return all;
}

// All records folded, in the reading order.
Told fromWhole(const rules::Log& log, const rules::AttemptsQuestion& question) {
    Told all;
    rules::State state;
    state.rulebook = log.firstEdition();
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (record.at > question.at) break;
        if (!log.takesPart(index, question.knownAt)) continue;
        rules::fold(state, record, log.editions());
        const auto* attempt = std::get_if<logbook::body::Check>(&record.body);
        if (attempt == nullptr || record.device != question.device) continue;
        const auto* device = state.device(record.device);
        const auto* check = device == nullptr || !device->checks.contains(attempt->check)
                                ? nullptr
                                : &device->checks.find(attempt->check)->second;
        if (check != nullptr && check->last && check->last->name == record.name) continue;
        const bool isDiscounted = check != nullptr && check->discounted &&
                                  check->discounted->record.name == record.name;
        all.push_back(told(record, isDiscounted ? &*check->discounted : nullptr));
    }
    return all;
}

}  // namespace

TEST_CASE("what did not count is told of one device as of the whole log", "[property]") {
    std::size_t found = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 200; ++seed) {
        CAPTURE(seed);
        RandomLog random(seed, {});
        const auto log = toLog(random.log());
        std::set<std::string> devices;
        for (const auto& record : log.records()) devices.insert(record.device);
        for (const auto& name : devices) {
            const bool isNow = found % 2 == 0;
            const rules::AttemptsQuestion question{
                name, isNow ? rules::unlimited : random.anyInstant(),
                isNow ? rules::unlimited : random.anyInstant()};
            const auto expected = fromWhole(log, question);
            CAPTURE(name);
            REQUIRE(fromDevice(log, question) == expected);
            found += expected.size();
        }
    }
    CHECK(found > 200);
}
