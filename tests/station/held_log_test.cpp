// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Kept states rest on records that fit their seals: whoever alters one past the triggers while
// states are made, and puts it back, has no answer changed by that.
#include "station/folded_ward.h"
#include "station/upkeep.h"
#include "support/statement_moments.h"

#include <SQLiteCpp/Statement.h>

#include <algorithm>
#include <array>
#include <string>

using namespace support;

namespace {

struct Exchange {
    std::string from, to;

    [[nodiscard]] Exchange back() const { return {to, from}; }
};

constexpr auto everywhere = "true";

// In the contents of those records; their hashes stay as they were.
void alter(const FoldedWard& ward, const Exchange& exchange,
           const std::string& where = everywhere) {
    SQLite::Database file(ward.file.path.string(), SQLite::OPEN_READWRITE);
    REQUIRE(sqlite3_db_config(file.getHandle(), SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr) ==
            SQLITE_OK);
    file.exec("PRAGMA synchronous = OFF");
    SQLite::Statement update(file, "UPDATE records SET content = replace(content, ?, ?) WHERE "
                                   "content LIKE '%' || ?1 || '%' AND " +
                                       where);
    update.bind(1, exchange.from);
    update.bind(2, exchange.to);
    update.exec();
}

const Exchange ofModel{R"("model":"Larch")", R"("model":"March")"};
const Exchange ofGroup{R"("groups":["adult"])", R"("groups":["pediatric"])"};
const Exchange ofNote{R"("text":"seen")", R"("text":"Seen")"};

std::string numbered(std::int64_t seq) {
    return "station = 'icu-1' AND seq = " + std::to_string(seq);
}

std::int64_t newestArrival(const FoldedWard& ward) {
    const auto kept = ward.open().snapshotsKept();
    REQUIRE(kept);
    std::int64_t newest = 0;
    for (const auto& each : *kept) newest = std::max(newest, each.arrival);
    return newest;
}

// As a verify tells it, with how to go on.
void requireTold(const FoldedWard& ward, const logbook::RecordName& name) {
    const auto rebuilt = station::rebuild(ward.surroundings, ward.file);
    REQUIRE_FALSE(rebuilt);
    const auto& problem = rebuilt.error();
    CHECK(problem.code == "trouble.chain_broken");
    CHECK(problem.notice.says.find(toText(name) + " ") != std::string::npos);
    CHECK(problem.notice.safe.find("Verify") != std::string::npos);
    const auto found = station::verify(ward.surroundings, ward.file);
    REQUIRE(found);
    CHECK(problem.details == station::findingsOf(ward.surroundings.words, found->report));
    CHECK(ward.open().snapshotsKept()->empty());
}

}  // namespace

TEST_CASE("No state is made of a record that does not fit its seal", "[fault]") {
    const FoldedWard ward;
    const auto log = quietLog(30);
    ward.add(log.records());
    const auto end = log.records().back().at;
    const auto last = static_cast<std::int64_t>(log.records().size());
    SECTION("in the state") {
        alter(ward, ofModel);
        requireTold(ward, {"icu-1", 2});
        alter(ward, ofModel.back());
    }
    SECTION("behind it, where a strike might stand") {
        alter(ward, ofNote, numbered(last));
        requireTold(ward, {"icu-1", last});
        alter(ward, ofNote.back());
    }
    CHECK(deviceOf(ward.ask({end}).state).enrolment.model == "Larch");
    REQUIRE(station::verify(ward.surroundings, ward.file)->ok());
    CHECK(ward.rebuild().kept > 0);
    requireSame(ward, {end}, ward.ask({end}));
}

TEST_CASE("No state is gone on from beside a record that does not fit its seal", "[fault]") {
    const FoldedWard ward;
    auto log = quietLog(850);
    const auto before = log.records().size();
    ward.add(log.records());
    station::renewSnapshots(ward.surroundings, ward.file);
    const auto first = newestArrival(ward);
    REQUIRE(first == static_cast<std::int64_t>(before));
    const auto end = log.records().back().at;
    for (int each = 0; each < station::mostFolded + 100; ++each) {
        log.on(device).at(end + minutes(each)).note();
    }
    ward.add({log.records().begin() + static_cast<std::ptrdiff_t>(before), log.records().end()});
    const auto last = static_cast<std::int64_t>(log.records().size());
    for (const auto seq : {std::int64_t{40}, last - 5'000, last - 3}) {
        CAPTURE(seq);
        alter(ward, ofNote, numbered(seq));
        station::renewSnapshots(ward.surroundings, ward.file);
        CHECK(newestArrival(ward) == first);
        alter(ward, ofNote.back(), numbered(seq));
    }
    station::renewSnapshots(ward.surroundings, ward.file);
    CHECK(newestArrival(ward) == last);
}

TEST_CASE("Who alters a record while states are made, and puts it back, changes no answer",
          "[exhaustive]") {
    constexpr int mostMoments = 200;
    const FoldedWard ward;
    auto log = quietLog(4);
    log.on(device).pass("leak");
    const auto soiled = log.on(device).soil();
    const auto noted = log.on(device).note();
    log.on(device).strike(noted);
    for (int hour = 0; hour < 48; ++hour) {
        log.on(device).at(when("03-08 00:00") + minutes(60 * hour)).note();
    }
    ward.add(log.records());
    const station::Asked now{log.records().back().at};
    const auto wanted = answersOf(ward, ward.askCold(now));
    const Exchange ofStrike{"\"target\":\"" + toText(noted) + "\"",
                            "\"target\":\"" + toText(soiled) + "\""};
    const auto exchange = std::array{ofGroup, ofStrike}.at(GENERATE(0U, 1U));
    CAPTURE(exchange.to);
    alter(ward, exchange);
    REQUIRE(answersOf(ward, ward.askCold(now)) != wanted);
    alter(ward, exchange.back());
    int moment = 1, refused = 0;
    for (bool came = true; came && moment < mostMoments; ++moment) {
        CAPTURE(moment);
        {
            StatementMoments moments(moment, [&](sqlite3*) { alter(ward, exchange); });
            moments.andThen(1 + moment % 4, [&](sqlite3*) { alter(ward, exchange.back()); });
            refused += station::rebuild(ward.surroundings, ward.file) ? 0 : 1;
            came = moments.came();
        }
        alter(ward, exchange.back());
        REQUIRE(answersOf(ward, ward.ask(now)) == wanted);
    }
    CHECK(moment > 10);
    CHECK(moment < mostMoments);
    CHECK(refused > 0);
}
