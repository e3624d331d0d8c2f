// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A record that is gone from the middle of a log, or to which its indexes do not lead: nothing that
// is read fails, and the heads alone tell that it was not given. No answer may pass over it.
#include "station/entry.h"
#include "station/folded_log.h"
#include "station/folded_ward.h"
#include "station/log_at_hand.h"
#include "station/lost_records.h"
#include "station/records_seen.h"
#include "station/serial_log.h"
#include "station/units_log.h"
#include "support/statement_moments.h"

#include <algorithm>
#include <array>
#include <limits>

using namespace support;
using station::RecordsSeen;

namespace {

// These indexes lead only to those of which it is true.
void showOnly(const FoldedWard& ward, const std::string& condition,
              const Texts& indexes = {"records_in_reading_order", "records_by_device"}) {
    for (const auto& name : indexes) {
        loseFromIndex(ward.file.path, name, "NOT (" + condition + ")");
    }
}

void hide(const FoldedWard& ward, int seq) { showOnly(ward, "seq <> " + std::to_string(seq)); }

std::vector<std::string> problemsOf(const FoldedWard& ward, const station::Standing& standing) {
    const auto provenance = station::provenanceOf(ward.surroundings, standing);
    CHECK(provenance.problems.empty() == provenance.devicesInDoubt.empty());
    return provenance.problems;
}

bool isTold(const std::vector<std::string>& problems, std::string_view record) {
    return std::ranges::any_of(problems, [&](const std::string& each) {
        return each.find(record) != std::string::npos;
    });
}

std::vector<std::string> lackingFrom(const RecordsSeen& seen, RecordsSeen::Numbers wanted) {
    std::vector<std::string> names;
    for (const auto& name : seen.lackingOf("a", wanted, 3)) names.push_back(toText(name));
    return names;
}

}  // namespace

TEST_CASE("what was seen of a station is known in whatever order it came", "[unit]") {
    using Names = std::vector<std::string>;
    RecordsSeen seen;
    for (const int seq : {1, 2, 5, 3, 9, 8, 8, 0, -4}) seen.see({"a", seq});
    seen.see({"b", 4});
    CHECK(lackingFrom(seen, {1, 9}) == Names{"a/4", "a/6", "a/7"});
    CHECK(lackingFrom(seen, {5, 12}) == Names{"a/6", "a/7", "a/10"});
    CHECK(lackingFrom(seen, {2, 3}).empty());
    CHECK(lackingFrom(seen, {7, 6}).empty());
    CHECK(seen.endsOf("a").first == 1);
    CHECK(seen.endsOf("a").last == 9);
    seen.see({"a", 4});
    seen.see({"a", 7});
    seen.see({"a", 6});
    CHECK(lackingFrom(seen, {1, 9}).empty());
    CHECK(seen.endsOf("c").last == 0);
    constexpr auto highest = std::numeric_limits<std::int64_t>::max();
    seen.see({"a", highest});
    seen.see({"a", std::numeric_limits<std::int64_t>::min()});
    CHECK(lackingFrom(seen, {8, highest}) == Names{"a/10", "a/11", "a/12"});
    CHECK(lackingFrom(seen, {highest, highest}).empty());
    CHECK(lackingFrom({}, {highest - 1, highest}) ==
          Names{"a/9223372036854775806", "a/9223372036854775807"});
}

TEST_CASE("heads beyond all counting are held against like any", "[fault]") {
    const FoldedWard ward;
    const auto log = quietLog(1);
    ward.add(log.records());
    const auto logbook = ward.open();
    const auto& last = log.records().back();
    RecordsSeen seen;
    seen.see(last.name);
    const auto place = store::placeOf(log.records()[log.records().size() - 2]);
    constexpr auto highest = std::numeric_limits<std::int64_t>::max();
    const auto heads = [&](std::int64_t seq) {
        store::StationHeads all;
        all[last.name.station].head.seq = seq;
        return all;
    };
    const auto lackingUpTo = [&](std::int64_t seq) {
        station::PlacesKnown known;
        const auto lacking =
            station::lackingIn(ward.surroundings, logbook, heads(seq),
                               {seen, &place, store::headsOf(heads(highest))}, known);
        REQUIRE(lacking);
        return *lacking;
    };
    CHECK(lackingUpTo(highest) ==
          std::vector<RecordName>{{last.name.station, last.name.seq + 1}});
    CHECK(lackingUpTo(last.name.seq).empty());
    CHECK(lackingUpTo(std::numeric_limits<std::int64_t>::min()).empty());
}

TEST_CASE("a record gone from the middle is noticed by every answer", "[fault]") {
    const FoldedWard ward;
    const auto log = quietLog(30);
    ward.add(log.records());
    const station::Asked now{log.records().back().at};
    const auto asked = [&] { return problemsOf(ward, ward.ask(now)); };
    CHECK(asked().empty());
    SECTION("where all is folded") {
        takeOut(ward.file.path, "seq = 300");
        CHECK(isTold(asked(), "/300 is missing"));
        auto logbook = ward.open();
        const auto whole = station::readWholeLog(ward.surroundings, logbook);
        REQUIRE(whole);
        REQUIRE(whole->gone.size() == 1);
        CHECK(whole->gone[0].record.seq == 300);
        CHECK(whole->gone[0].reason == store::Break::Reason::Gap);
    }
    SECTION("and behind a kept state") {
        CHECK(ward.rebuild().kept > 0);
        REQUIRE(ward.ask(now).folded == 2);
        takeOut(ward.file.path,
                "seq = " + std::to_string(log.records().size() - 1));
        CHECK(isTold(asked(), " is missing"));
    }
    SECTION("in a program that goes on as well") {
        CHECK(ward.rebuild().kept > 0);
        auto source = station::StandingSource::open(ward.surroundings, ward.file);
        REQUIRE(source);
        REQUIRE((*source)->ask(now)->folded == 2);
        auto more = log;
        for (const int after : {5, 6, 7}) {
            more.on(device).at(now.at.value() + minutes(after)).note();
        }
        ward.add({more.records().end() - 3, more.records().end()});
        takeOut(ward.file.path,
                "seq = " + std::to_string(more.records().size() - 1));
        const auto standing = (*source)->ask({now.at.value() + minutes(9)});
        REQUIRE(standing);
        CHECK(isTold(problemsOf(ward, *standing), " is missing"));
    }
}

TEST_CASE("a record to which no index leads is noticed by every answer", "[fault]") {
    const FoldedWard ward;
    const auto log = quietLog(30);
    ward.add(log.records());
    const station::Asked now{log.records().back().at};
    SECTION("where all is folded") {
        hide(ward, 300);
        const auto standing = ward.ask(now);
        CHECK_FALSE(problemsOf(ward, standing).empty());
        REQUIRE(standing.facts.unread.size() == 1);
        CHECK(standing.facts.unread[0].seq == 300);
        const auto logbook = ward.open();
        CHECK_FALSE(station::readWholeLog(ward.surroundings, logbook));
    }
    SECTION("and behind a kept state") {
        CHECK(ward.rebuild().kept > 0);
        hide(ward, static_cast<int>(log.records().size()) - 1);
        CHECK_FALSE(problemsOf(ward, ward.ask(now)).empty());
    }
    SECTION("what lies behind the time that is asked about is not missed") {
        CHECK(ward.rebuild().kept > 0);
        const auto logbook = ward.open();
        station::FoldedLog folded(ward.surroundings, logbook);
        REQUIRE(folded.catchUp());
        CHECK(folded.stateAt(*now.at - minutes(70))->unread.empty());
        CHECK(folded.stateAt(*now.at)->unread.empty());
    }
}

TEST_CASE("a station of which nothing is given behind a kept state is noticed", "[fault]") {
    const FoldedWard ward;
    auto log = quietLog(30);
    const auto end = log.records().back().at;
    const station::Asked now{end};
    log.on(device).station("er-2").at(end - minutes(2000)).note();
    SECTION("also where it is every station") {
        ward.add(log.records());
        CHECK(ward.rebuild().kept > 0);
        CHECK(problemsOf(ward, ward.ask(now)).empty());
        showOnly(ward, "at_ms <= " + std::to_string((end - minutes(120)).ms));
        CHECK_FALSE(problemsOf(ward, ward.ask(now)).empty());
    }
    SECTION("also up to a time, whatever it wrote later") {
        const station::Asked earlier{end - minutes(30)};
        log.on(device).station("er-2").at(end - minutes(50)).note();
        log.on(device).station("er-2").at(end - minutes(10)).note();
        ward.add(log.records());
        CHECK(ward.rebuild().kept > 0);
        CHECK(problemsOf(ward, ward.ask(earlier)).empty());
        showOnly(ward, "station <> 'er-2' OR seq = 1");
        CHECK_FALSE(problemsOf(ward, ward.ask(earlier)).empty());
        CHECK_FALSE(problemsOf(ward, ward.ask(now)).empty());
    }
}

TEST_CASE("a strike that a kept state names is gone, and a start is taken", "[fault]") {
    const FoldedWard ward;
    auto log = quietLog(10);
    const auto end = log.records().back().at;
    // Of an entry by a clock that was ahead: what it strikes lies behind the state, and it before.
    const auto pass = log.on(device).station("er-2").at(end + minutes(400)).pass("leak");
    const auto strike = log.on(device).at(end).strike(pass);
    log.on(device).at(end + minutes(1)).note();
    ward.add(log.records());
    const station::Asked now{end + minutes(401)};
    CHECK(ward.rebuild().kept > 0);
    REQUIRE(ward.ask(now).folded == 0);  // behind the state lies only what is struck
    REQUIRE(problemsOf(ward, ward.ask(now)).empty());
    takeOut(ward.file.path, "seq = " + std::to_string(strike.seq));
    const auto gone = toText(strike) + " is missing";
    CHECK(isTold(problemsOf(ward, ward.ask(now)), gone));
    auto source = station::StandingSource::open(ward.surroundings, ward.file);
    REQUIRE(source);
    for (int time = 0; time < 2; ++time) {
        const auto standing = (*source)->ask(now);
        REQUIRE(standing);
        CHECK(isTold(problemsOf(ward, *standing), gone));
    }
    const auto written = station::writeEntry(ward.surroundings, ward.file,
                                             {station::Writer("Robin"), "use_start", device});
    CHECK(written);
}

TEST_CASE("what the index by unit alone does not lead to is read all the same", "[fault]") {
    const FoldedWard ward;
    auto log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]", "[positions.circuit]\n"));
    const auto first = log.on(device).fit("circuit", {{"serial", "P1"}});
    const auto use = log.on(device).useStart();
    log.on(device).useEnd();
    log.on(device).remove("circuit");
    log.on("KB-2").enrol({"adult"});
    const auto last = log.on("KB-2").fit("circuit", {{"serial", "P1"}});
    for (int hour = 0; hour < 10; ++hour) {
        log.on(device).at(when("03-03 00:00") + minutes(60 * hour)).note();
    }
    ward.add(log.records());
    CHECK(ward.rebuild().kept > 0);
    const auto trace = [&] {
        const auto standing =
            station::standingForSerial(ward.surroundings, ward.file, {}, "P1");
        REQUIRE(standing);
        const auto told = station::trace(ward.surroundings, *standing,
                                         {rules::TraceBy::Serial, "P1"});
        REQUIRE(told);
        return logbook::json::pretty(toJson(*told));
    };
    const auto ofUnit = [&] {
        auto own = station::withLogOf(ward.surroundings, ward.file, ward.ask({}), "KB-2");
        REQUIRE(own);
        return own->log;
    };
    const auto logbook = ward.open();
    const auto atHand = [&] {
        auto read = station::readAtHand(ward.surroundings, ward.file, logbook,
                                        {.devices = {"KB-2"}, .since = ward.clock.now()});
        REQUIRE(read);
        return *std::move(read);
    };
    const auto all = trace();
    CHECK(ofUnit()->log.records().size() < log.records().size());
    REQUIRE(atHand().beginning != nullptr);
    const RecordName hidden = std::array{first, use, last}.at(GENERATE(0U, 1U, 2U));
    CAPTURE(toText(hidden));
    showOnly(ward, "seq <> " + std::to_string(hidden.seq), {"records_by_device"});
    CHECK(trace() == all);
    if (hidden == last) {
        CHECK(ofUnit()->log.find(last));
        CHECK(station::recordIn(atHand(), last) != nullptr);
        CHECK(atHand().beginning == nullptr);
    }
}

TEST_CASE("each of many quiet stations is looked for once", "[unit]") {
    const FoldedWard ward;
    auto log = quietLog(2);
    const auto end = log.records().back().at;
    constexpr int many = 300;
    for (int number = 0; number < many; ++number) {
        log.on(device).station("s-" + std::to_string(number)).at(when("03-03 00:30")).note();
    }
    ward.add(log.records());
    CHECK(ward.rebuild().kept > 0);
    const StatementMoments statements(-1, [](sqlite3*) {});
    const auto logbook = ward.open();
    station::FoldedLog folded(ward.surroundings, logbook);
    REQUIRE(folded.catchUp());
    const auto needed = [&] {
        const auto before = statements.seen();
        const auto state = folded.stateAt(end);
        REQUIRE(state);
        CHECK(state->unread.empty());
        return statements.seen() - before;
    };
    const auto once = needed();
    CHECK(once >= many);
    CHECK(needed() < many / 10);
    // An entry is judged by a state and what comes after it: both are held against the heads.
    const auto before = statements.seen();
    const auto atHand = station::readAtHand(ward.surroundings, ward.file, logbook, {.since = end});
    REQUIRE(atHand);
    CHECK(atHand->beginning != nullptr);
    CHECK(statements.seen() - before >= many);
    CHECK(statements.seen() - before < 2 * once);
}
