// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What others write while an answer is read, in whichever moment: it is in the answer whole or not
// at all. And what could not be read in one of these moments is read the next time.
#include "station/folded_ward.h"
#include "station/found_records.h"
#include "station/log_at_hand.h"
#include "support/statement_moments.h"

using namespace support;

namespace {

const std::string otherDevice = "KB-2";
constexpr int mostMoments = 200;

// A check that is moved from one unit to the other and back, in the midst of a long log: what it
// was is struck through and it is entered anew, together.
class MovedCheck {
public:
    MovedCheck() {
        m_log.on(otherDevice).enrol({"adult"});
        const auto begin = when("03-03 00:00");
        for (int hour = 0; hour < 1300; ++hour) {
            m_log.on(device).at(begin + minutes(60 * hour)).note();
            if (hour == 700) m_stands = m_log.on(device).pass("leak");
        }
        m_done = m_log.records()[m_log.records().size() - 600].at;
        m_now = m_log.nextInstant();
        m_ward.add(m_log.records());
    }

    void move() {
        m_now = m_now + minutes(1);
        m_on = m_on == device ? otherDevice : device;
        m_log.on(device).at(m_now).strike(m_stands);
        m_stands = m_log.on(m_on).at(m_done).entered(m_now).pass("leak");
        const auto& records = m_log.records();
        m_ward.add({records[records.size() - 2], records.back()});
    }

    [[nodiscard]] const FoldedWard& ward() const { return m_ward; }
    [[nodiscard]] Instant done() const { return m_done; }
    [[nodiscard]] station::Asked asked() const { return {when("12-30 11:00"), {}, "adult"}; }

    // With the heads that it tells.
    [[nodiscard]] std::string told(const station::Standing& standing) const {
        return logbook::json::pretty(toJson(station::board(m_ward.surroundings, standing)));
    }
    [[nodiscard]] std::string toldCold() const { return told(m_ward.askCold(asked())); }

private:
    FoldedWard m_ward;
    LogBuilder m_log = logWith(bookOfLeak(""));
    Instant m_done, m_now;
    std::string m_on = device;
    RecordName m_stands;
};

// Asks again and again, each time with something new and a move in the next moment; how many there
// were.
template <class Ask>
int requireWhole(MovedCheck& check, Ask ask) {
    for (int moment = 1; moment < mostMoments; ++moment) {
        CAPTURE(moment);
        check.move();
        const auto before = check.toldCold();
        const StatementMoments moments(moment, [&](sqlite3*) { check.move(); });
        const auto told = ask();
        if (!moments.came()) return moment - 1;
        const auto after = check.toldCold();
        REQUIRE(before != after);
        REQUIRE((told == before || told == after));
    }
    return mostMoments;
}

}  // namespace

TEST_CASE("what others write together is in an answer whole or not at all", "[unit]") {
    MovedCheck check;
    int moments = 0;
    SECTION("read from the first record on") {
        moments = requireWhole(check, [&] { return check.toldCold(); });
    }
    SECTION("read with the log") {
        moments = requireWhole(check, [&] {
            const auto whole =
                station::wholeStanding(check.ward().surroundings, check.ward().file, check.asked());
            REQUIRE(whole);
            return check.told(*whole);
        });
    }
    SECTION("begun with a kept state or with the last answer") {
        (void)check.ward().rebuild();
        const StatementMoments watched(0, {});
        const auto source =
            station::StandingSource::open(check.ward().surroundings, check.ward().file);
        REQUIRE(source);
        moments = requireWhole(check, [&] {
            const auto standing = (*source)->ask(check.asked());
            REQUIRE(standing);
            return check.told(*standing);
        });
    }
    CHECK(moments > 10);
    CHECK(moments < mostMoments);
}

TEST_CASE("what others write while a part of the log is gathered is not of it", "[unit]") {
    MovedCheck check;
    const auto& ward = check.ward();
    (void)ward.rebuild();
    int moment = 1;
    for (bool came = true; came && moment < mostMoments; ++moment) {
        CAPTURE(moment);
        const StatementMoments moments(moment, [&](sqlite3*) { check.move(); });
        const auto logbook = ward.open();
        const auto log = station::readAtHand(ward.surroundings, ward.file, logbook,
                                             {{"", device, otherDevice}, {}, check.done()});
        came = moments.came();
        REQUIRE(log);
        for (const auto& record : log->log.records()) {
            const auto head = log->heads.find(record.name.station);
            REQUIRE(head != log->heads.end());
            REQUIRE(record.name.seq <= head->second.head.seq);
        }
    }
    CHECK(moment > 10);
    CHECK(moment < mostMoments);
}

TEST_CASE("what comes in while kept states are looked at makes none of them wrong", "[unit]") {
    const FoldedWard ward;
    auto log = quietLog(40);
    const auto end = log.nextInstant();
    std::vector<RecordName> enrolled;
    for (int unit = 0; unit < mostMoments; ++unit) {
        const auto serial = "KC-" + std::to_string(unit);
        enrolled.push_back(log.on(serial).at("03-02 09:00").enrol({"adult"}));
    }
    log.takeTime(end);
    ward.add(log.records());
    int moment = 1, checked = 0;
    for (bool came = true; came && moment < mostMoments; ++moment) {
        CAPTURE(moment);
        REQUIRE(ward.rebuild().kept > 1);
        const StatementMoments moments(moment, [&](sqlite3*) {
            const auto unit = static_cast<std::size_t>(moment);
            log.on("KC-" + std::to_string(unit)).strike(enrolled[unit]);
            ward.add({log.records().back()});
        });
        const auto logbook = ward.open();
        const auto check = station::checkSnapshots(ward.surroundings, logbook);
        came = moments.came();
        REQUIRE(check);
        CHECK(check->wrong.empty());
        checked += check->checked;
    }
    CHECK(moment > 10);
    CHECK(moment < mostMoments);
    CHECK(checked > 10);
}

TEST_CASE("what is kept is not wrong where it is thrown away and made again meanwhile", "[unit]") {
    const FoldedWard ward;
    auto log = quietLog(40);
    ward.add(log.records());
    REQUIRE(ward.rebuild().kept > 1);
    const auto throwAway = [&](sqlite3*) {
        auto logbook =
            station::openLogbook(ward.surroundings, ward.file, station::Access::Write);
        REQUIRE(logbook);
        REQUIRE(logbook->dropDerived({"mt", ward.clock.now()}));
    };
    int moment = 1, checked = 0;
    for (bool came = true; came && moment < mostMoments; ++moment) {
        for (const int later : {1, 2, 3}) {
            CAPTURE(moment, later);
            const auto check = [&] {
                StatementMoments moments(moment, throwAway);
                moments.andThen(later, [&](sqlite3*) { (void)ward.rebuild(); });
                const auto watched = ward.open();
                auto found = station::checkSnapshots(ward.surroundings, watched);
                came = moments.came();
                return found;
            }();
            REQUIRE(check);
            CHECK(check->wrong.empty());
            checked += check->checked;
            if (ward.open().snapshotsKept()->empty()) (void)ward.rebuild();
        }
    }
    CHECK(moment > 10);
    CHECK(moment < mostMoments);
    CHECK(checked > 10);
}

namespace {

// Notes of before the first edition, found as they come in among others.
class FoundNotes {
public:
    FoundNotes() : m_logbook(m_ward.open()) {
        m_ward.add(m_log.records());
        add(1);
    }

    // So many notes, of which the last is to be found: in the reading order it is the first.
    void add(int count) {
        ++m_wanted;
        const auto begin = m_log.records().size();
        for (; count > 1; --count) m_log.on(device).note();
        const auto next = m_log.nextInstant();
        m_log.on(device).at(m_earliest = m_earliest - minutes(1)).entered(next).note();
        m_log.takeTime(next);
        const auto& all = m_log.records();
        m_ward.add({all.begin() + static_cast<std::ptrdiff_t>(begin), all.end()});
    }
    [[nodiscard]] station::Result<bool> renew() {
        return m_found.renew(m_ward.surroundings, m_logbook, m_search);
    }
    [[nodiscard]] bool hasAll() const {
        return m_found.records().size() == m_wanted;
    }

private:
    FoldedWard m_ward;
    LogBuilder m_log = logWith(bookOfLeak(""));
    Instant m_earliest = when("03-02 00:00");
    std::size_t m_wanted = 0;
    const StatementMoments m_watched{0, {}};
    store::Logbook m_logbook;
    station::FoundRecords m_found;
    station::FoundRecords::Search m_search{
        {{{"note"}, [](auto, auto) { return true; }}},
        [](const logbook::Record& record) { return record.at < when("03-02 00:00"); }};
};

}  // namespace

TEST_CASE("what is found among new records is told once, also after a failure", "[fault]") {
    FoundNotes notes;
    REQUIRE(notes.renew());
    int moment = 1;
    for (bool came = true; came && moment < mostMoments; ++moment) {
        CAPTURE(moment);
        notes.add(1002);
        {
            const StatementMoments moments(moment, sqlite3_interrupt);
            const auto isOther = notes.renew();
            came = moments.came();
            CHECK(isOther.has_value() != came);
        }
        const auto isOther = notes.renew();
        REQUIRE(isOther);
        CHECK(*isOther == came);
        CHECK(notes.hasAll());
    }
    CHECK(moment > 4);
    CHECK(moment < mostMoments);
}

TEST_CASE("what comes in while records are looked for is found now or the next time", "[unit]") {
    FoundNotes notes;
    REQUIRE(notes.renew());
    int moment = 1;
    for (bool came = true; came && moment < mostMoments; ++moment) {
        CAPTURE(moment);
        notes.add(1002);
        {
            const StatementMoments moments(moment, [&](sqlite3*) { notes.add(2); });
            REQUIRE(notes.renew());
            came = moments.came();
        }
        REQUIRE(notes.renew());
        CHECK(notes.hasAll());
    }
    CHECK(moment > 4);
    CHECK(moment < mostMoments);
}

TEST_CASE("the heads of a kept state cover what it was made from and no more", "[unit]") {
    const FoldedWard ward;
    auto log = quietLog(1);
    ward.add(log.records());
    for (int moment = 1; moment < mostMoments; ++moment) {
        CAPTURE(moment);
        const StatementMoments moments(moment, [&](sqlite3*) {
            log.on(device).note();
            ward.add({log.records().back()});
        });
        CHECK(ward.rebuild().kept > 0);
        const bool came = moments.came();
        const auto logbook = ward.open();
        const auto kept = logbook.snapshotsKept();
        REQUIRE(kept);
        for (const auto& each : *kept) {
            const auto snapshot = logbook.snapshotAt(each.place);
            REQUIRE((snapshot && *snapshot));
            std::int64_t covered = 0;
            for (const auto& [station, head] : (*snapshot)->heads) covered += head.seq;
            CHECK(covered == (*snapshot)->arrival);
        }
        if (!came) return;
    }
    FAIL("it never came to an end");
}
