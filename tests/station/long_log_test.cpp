// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A long log without kept states, as a restore, a salvage or a newer engine leaves it: an entry is
// judged as by the whole log, and does not read it.
#include "rules/state_bytes.h"
#include "station/entry_check.h"
#include "station/entry_meaning.h"
#include "station/own_records.h"
#include "station/two_desks.h"
#include "support/seed.h"

using namespace support;

namespace {

constexpr int moreThanFolded = static_cast<int>(station::mostFolded) + 60;

std::string bytesOf(const station::LogAtHand& log, logbook::Instant at) {
    auto state = stateOf(log, at);
    REQUIRE(state.adopted);
    state.rulebook = log.log.editions().at(state.adopted->name);  // which each has read by itself
    return rules::toBytes(state, log.log.editions());
}

// All that is told of the entries, each by itself, and the states that they are judged by.
std::string judged(const Desk& desk, const station::LogAtHand& log,
                   const std::vector<station::Entry>& entries) {
    const auto& surroundings = desk.surroundings;
    const auto now = surroundings.clock.now();
    const station::Gate gate(surroundings, desk.file, log);
    std::string all;
    for (const auto& entry : entries) {
        const auto name = station::nextName(surroundings, log);
        REQUIRE(name);
        const auto record =
            station::recordOf(surroundings, {entry, {"Robin", "Robin"}}, *name, now);
        if (!record) {
            all += record.error().code + "\n";
            continue;
        }
        all += bytesOf(log, record->at) + bytesOf(extended(surroundings, log, {*record}), now);
        const auto checked = station::checkEntry(surroundings, log, *record,
                                                 {gate.people(), gate.asOf()});
        all += checked ? "taken" : checked.error().code + checked.error().notice.text();
        for (const auto& line : checked.value_or(Texts())) all += "\n" + line;
        for (const auto& line : station::entryMeaning(surroundings, log, *record)) {
            all += "\n" + line;
        }
        for (const auto& line : station::worseBy(surroundings, log, {*record})) all += "\n" + line;
    }
    return all;
}

}  // namespace

TEST_CASE("In a long log without kept states entries are judged as by the whole log",
          "[property]") {
    const auto seed = support::seedOfRun();
    CAPTURE(seed);
    RandomShape shape;
    shape.records = moreThanFolded;
    shape.devices = 3;
    RandomLog random(seed, shape);
    auto& dice = random.random();
    Desks desks(random.log().records(), random.end() + minutes(400));
    const auto& desk = desks.plain;
    const station::LogAtHand whole{desk.whole()};
    Entering entering(dice, random.devices(), namesOf(random.log().records()));
    int began = 0;
    for (int round = 0; round < 7; ++round) {
        CAPTURE(round);
        desks.clock.advance(minutes(1 + dice.below(60)));
        const auto entries = entering.press(desks.clock.now());
        const auto needed = station::neededFor(desk.surroundings,
                                               desk.open(station::Access::Read), entries);
        REQUIRE(needed);
        const auto part = desk.atHand(*needed);
        REQUIRE(part.log.records().size() <= whole.log.records().size());
        began += part.beginning ? 1 : 0;
        CHECK(toText(part.reached) == toText(whole.reached));
        CHECK((judged(desk, part, entries) == judged(desk, whole, entries)));
    }
    // A strike of the first edition begins with nothing.
    CHECK(began > 3);
}

TEST_CASE("In a long log without kept states an entry reads its unit and what came since",
          "[unit]") {
    LogBuilder log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]"));
    log.department().at("03-02 20:00").person("Robin", {"lead"});
    log.on("KB-0002").at("03-02 21:00").enrol({"adult"});
    for (int each = 0; each < moreThanFolded; ++each) {
        log.on(each % 5000 == 0 ? "KB-0002" : device)
            .at(when("03-03 00:00") + minutes(10 * each))
            .note();
    }
    const auto end = log.records().back().at;
    Desks desks(log.records(), end + minutes(5));
    station::Needed needed{{"KB-0002"}, {}, desks.clock.now()};
    const auto now = desks.plain.atHand(needed);
    REQUIRE(now.beginning);
    CHECK(now.beginning->place.at == end);
    CHECK(now.log.records().size() == 3 + 5);  // edition, person, enrolment and its notes
    CHECK(now.reaches(desks.clock.now()));
    CHECK_FALSE(now.reaches(end));
    CHECK(recordIn(now, log.records().back().name) != nullptr);
    CHECK(recordIn(now, {"icu-9", 1}) == nullptr);
    // Older than every state that is kept, too.
    needed.since = when("03-03 00:00") + minutes(10 * 100);
    for (const auto* desk : {&desks.plain, &desks.keeping}) {
        const auto late = desk->atHand(needed);
        REQUIRE(late.beginning);
        CHECK(late.beginning->place.at == *needed.since - minutes(10));
        CHECK(late.log.records().size() == 3 + 1 + (moreThanFolded - 100));
    }
}
