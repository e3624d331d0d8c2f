// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook of which some entries cannot be read: what must not wait is still recorded, and what is
// not found is not said not to be there.
#include "station/damage.h"

#include "station/answers.h"
#include "station/confirmation.h"
#include "station/damaged_ward.h"
#include "station/people_list.h"
#include "station/serial_log.h"
#include "station/standing.h"
#include "station/standing_source.h"
#include "store/bad_sectors.h"
#include "support/statement_moments.h"

#include <SQLiteCpp/Database.h>

#include <cerrno>

using store::test::BadSectors;
using namespace support;

namespace {

std::size_t readable(Ward& ward) {
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    REQUIRE(logbook);
    return logbook->records()->records.size();
}

}  // namespace

TEST_CASE("With a strange trigger a start is recorded as it is, and nothing that waits", "[unit]") {
    Ward ward;
    fill(ward);
    SQLite::Database(ward.logbook.path.string(), SQLite::OPEN_READWRITE)
        .exec("CREATE TRIGGER a BEFORE UPDATE ON local_heads BEGIN SELECT raise(IGNORE); END");
    const station::Entry note{ward.as("mt"), "note", "KB-0001", {{"text", "Seen"}}};
    CHECK(codeOf(ward, note) == "trouble.damaged");
    const auto before = readable(ward);
    const auto started =
        station::writeEntry(ward.surroundings, ward.logbook, {"mt", "use_start", "KB-0001"});
    REQUIRE(started);
    CHECK(started->warnings.back() == ward.surroundings.words.say("verify.file_damaged"));
    CHECK(codeOf(ward, {"mt", "use_end", "KB-0001"}) == "");
    CHECK(readable(ward) == before + 2);
    const auto report = station::openLogbook(ward.surroundings, ward.logbook,
                                             station::Access::Read)->verify();
    CHECK(report->breaks.empty());
}

TEST_CASE("With a strange trigger what waits is refused where entries are gone too", "[unit]") {
    Ward ward;
    fill(ward);
    {
        SQLite::Database database(ward.logbook.path.string(), SQLite::OPEN_READWRITE);
        database.exec("DROP TRIGGER records_are_never_deleted");
        database.exec("DELETE FROM records WHERE seq = "
                      "(SELECT max(seq) FROM records WHERE device = 'KB-0002')");
        database.exec("CREATE TRIGGER a BEFORE UPDATE ON local_heads"
                      " BEGIN SELECT raise(IGNORE); END");
    }
    REQUIRE_FALSE(station::verify(ward.surroundings, ward.logbook)->ok());
    const auto before = readable(ward);
    const station::Entry note{ward.as("mt"), "note", "KB-0001", {{"text", "Seen"}}};
    CHECK(codeOf(ward, note) == "trouble.damaged");
    CHECK(readable(ward) == before);
    CHECK(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
}

TEST_CASE("Nothing that waits is written after a strange trigger, whenever it came", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const station::Entry note{ward.as("mt"), "note", "KB-0001", {{"text", "Seen"}}};
    SQLite::Database others(ward.logbook.path.string(), SQLite::OPEN_READWRITE);
    const auto count = [&] { return others.execAndGet("SELECT count(*) FROM records").getInt(); };
    constexpr int mostMoments = 500;
    int moment = 1, refused = 0;
    for (bool came = true; came && moment < mostMoments; ++moment) {
        CAPTURE(moment);
        const int before = count();
        bool isEarly = false;
        std::string code;
        {
            const StatementMoments moments(moment, [&](sqlite3*) {
                isEarly = count() == before;
                others.exec("CREATE TRIGGER a BEFORE UPDATE ON local_heads"
                            " BEGIN SELECT raise(IGNORE); END");
            });
            code = codeOf(ward, note);
            came = moments.came();
        }
        CHECK(code == (isEarly ? "trouble.damaged" : ""));
        CHECK(count() == before + (isEarly ? 0 : 1));
        others.exec("DROP TRIGGER IF EXISTS a");
        refused += isEarly ? 1 : 0;
    }
    CHECK(refused > 5);
    CHECK(moment < mostMoments);
}

TEST_CASE("A start is recorded though older entries cannot be read", "[fault]") {
    Ward ward;
    fill(ward);
    zeroLeaf(ward, ofKb2);
    const auto before = readable(ward);
    const auto bytes = ward.bytes();
    // What can wait is refused, and nobody is asked for a PIN in vain.
    station::Writer writer("mt");
    writer.ask = [](const std::string&) {
        FAIL("asked");
        return std::nullopt;
    };
    const station::Entry note{writer, "note", "KB-0001", {{"text", "Seen"}}};
    CHECK(codeOf(ward, note) == "trouble.damaged");
    CHECK(ward.bytes() == bytes);
    const auto started =
        station::writeEntry(ward.surroundings, ward.logbook, {"mt", "use_start", "KB-0001"});
    INFO((started ? "" : started.error().notice.text()));
    REQUIRE(started);
    CHECK(started->warnings.back() == ward.surroundings.words.say("verify.read_round"));
    // Also on a unit whose enrolment is among what is gone.
    CHECK(codeOf(ward, {"mt", "use_start", "KB-0002"}) == "");
    CHECK(codeOf(ward, {"mt", "use_end", "KB-0001"}) == "");
    CHECK(readable(ward) == before + 3);
}

TEST_CASE("A start that cannot be recorded is told to be kept on paper", "[fault]") {
    Ward ward;
    fill(ward);
    zeroLeaf(ward, "");
    const auto bytes = ward.bytes();
    const auto onPaper = ward.surroundings.words.say("entry.on_paper");
    const auto actionAt = [&](const station::Entry& entry) {
        const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
        REQUIRE_FALSE(written);
        CHECK(station::isOfDamage(written.error()));
        return written.error().notice.action;
    };
    CHECK(actionAt({"mt", "use_start", "KB-0001"}) == onPaper);
    CHECK(actionAt({ward.as("mt"), "note", "KB-0001", {{"text", "Seen"}}}) != onPaper);
    CHECK(ward.bytes() == bytes);
}

TEST_CASE("What cannot be read is not said not to be there", "[fault]") {
    Ward ward;
    fill(ward);
    const auto codes = [&](const std::string& device) {
        const auto standing = station::wholeStanding(ward.surroundings, ward.logbook, {});
        REQUIRE(standing);
        const auto explained = station::explain(ward.surroundings, *standing, device);
        const auto way = station::wayToReady(ward.surroundings, *standing, device);
        CHECK(explained.has_value() == way.has_value());
        return explained ? "" : explained.error().code + " " + way.error().code;
    };
    const auto doubts = [&] {
        const auto waiting = station::waiting(ward.surroundings, ward.logbook);
        const auto people = station::peopleOf(ward.surroundings, ward.logbook);
        REQUIRE(waiting);
        REQUIRE(people);
        CHECK(waiting->doubts == people->doubts);
        return waiting->doubts.size();
    };
    CHECK(codes("KB-0003") == "trouble.unknown_device trouble.unknown_device");
    CHECK(doubts() == 0);
    CHECK(station::unconfirmed(ward.surroundings, ward.logbook)->size() == 1);
    zeroLeaf(ward, ofKb2);
    const std::string damaged = "trouble.unknown_device_damaged";
    CHECK(codes("KB-0002") == damaged + " " + damaged);
    CHECK(codes("KB-0003") == damaged + " " + damaged);
    CHECK(codes("KB-0001") == "");
    CHECK(station::unconfirmed(ward.surroundings, ward.logbook)->empty());
    CHECK(doubts() > 0);
}

TEST_CASE("A part is traced in what can be read", "[fault]") {
    Ward ward;
    fill(ward);
    zeroLeaf(ward, ofKb2);
    const auto some = station::standingForSerial(ward.surroundings, ward.logbook, {}, "4711");
    const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
    REQUIRE(some);
    REQUIRE(whole);
    const auto shown = [&](const station::WholeStanding& standing) {
        const auto trace =
            station::trace(ward.surroundings, standing, {rules::TraceBy::Serial, "4711"});
        REQUIRE(trace);
        CHECK_FALSE(trace->found.isEmpty());
        return toText(*trace, ward.surroundings.words);
    };
    CHECK(shown(*some) == shown(*whole));
}

// A state that is kept knows of the part, and of nothing that cannot be read before it.
TEST_CASE("A part whose entries cannot be read is not said not to be there", "[fault]") {
    Ward ward;
    fill(ward);
    station::Entry fit{ward.as("mt"), "fit", "KB-0001"};
    fit.body = {{"position", "circuit"}, {"part", logbook::json::Object{{"serial", "5822"}}}};
    REQUIRE(codeOf(ward, fit) == "");
    keepStates(ward);
    zeroLeaf(ward, "5822");
    const auto standing = station::standingForSerial(ward.surroundings, ward.logbook, {}, "5822");
    REQUIRE(standing);
    const auto trace =
        station::trace(ward.surroundings, *standing, {rules::TraceBy::Serial, "5822"});
    REQUIRE(trace);
    CHECK_FALSE(trace->provenance.problems.empty());
}

TEST_CASE("What cannot be known of a unit is not told of it once an entry is kept", "[fault]") {
    Ward ward;
    fill(ward);
    const auto meaningOf = [&](const std::string& device) {
        const station::Entry fault{"mt", "fault", device,
                                   {{"code", "fan_noise"}, {"blocking", false}, {"text", "n"}}};
        const auto written = station::writeEntry(ward.surroundings, ward.logbook, fault);
        return written ? written->meaning.back() : written.error().code;
    };
    const auto& words = ward.surroundings.words;
    CHECK(meaningOf("KB-0001").find("KB-0001 is ready") != std::string::npos);
    CHECK(meaningOf("KB-0009") == "entry.unknown_device");
    zeroLeaf(ward, ofKb2);
    CHECK(meaningOf("KB-0001") == words.say("standing.in_doubt", {{"device", "KB-0001"}}));
    CHECK(meaningOf("KB-0002") == "entry.unread_device");
    std::filesystem::remove(ward.logbook.path);
    const auto start = station::writeEntry(ward.surroundings, ward.logbook,
                                           {"mt", "use_start", "KB-0001"});
    REQUIRE_FALSE(start);
    const auto& told = start.error().notice;
    CHECK(told.safe == words.say("entry.not_recorded_now",
                                 {{"safe", words.say("trouble.not_found.safe")}}));
    CHECK(told.action.find(words.say("trouble.not_found.do")) != std::string::npos);
}

// By the database's own account the one is damage and the other is not.
TEST_CASE("Where the disk does not give a page, that is told, and a start is taken", "[fault]") {
    for (const int error : {EIO, EREMOTEIO}) {
        INFO("error " << error);
        Ward ward;
        fill(ward);
        const auto& words = ward.surroundings.words;
        const auto bytes = ward.bytes();
        {
            const BadSectors bad(ward.logbook.path, {leafWith(bytes, ofKb2), pageSize, error});
            const auto standing = station::standing(ward.surroundings, ward.logbook, {});
            REQUIRE(standing);
            const auto provenance = station::provenanceOf(ward.surroundings, *standing);
            CHECK(provenance.problems.front() == words.say("verify.read_round_disk"));
            CHECK(provenance.problems.size() == 2);
            CHECK(provenance.devicesInDoubt.contains("KB-0001"));
            const station::Entry note{ward.as("mt"), "note", "KB-0001", {{"text", "Seen"}}};
            CHECK(codeOf(ward, note) == "trouble.unreadable");
            const auto started = station::writeEntry(ward.surroundings, ward.logbook,
                                                     {"mt", "use_start", "KB-0001"});
            INFO((started ? "" : started.error().notice.text()));
            REQUIRE(started);
            CHECK(started->warnings.back() == words.say("verify.read_round_disk"));
            const auto backup = station::backUp(ward.surroundings, ward.logbook,
                                                ward.folder.file("copy.logbook"));
            REQUIRE_FALSE(backup);
            CHECK(backup.error().code == "trouble.unreadable");
            const auto verified = station::verify(ward.surroundings, ward.logbook);
            REQUIRE(verified);
            CHECK(station::findingsOf(words, verified->report).front() ==
                  words.say("verify.disk_failed"));
        }
        ward.folder.write("ward.logbook", bytes);
        {
            const BadSectors bad(ward.logbook.path, {leafWith(bytes, ""), pageSize, error});
            const auto written = station::writeEntry(ward.surroundings, ward.logbook,
                                                     {"mt", "use_start", "KB-0001"});
            REQUIRE_FALSE(written);
            CHECK(station::isOfDamage(written.error()));
            CHECK(written.error().notice.action == words.say("entry.on_paper"));
        }
        CHECK(ward.bytes() == bytes);
    }
}

namespace {

// The first page of the settings, which every answer reads.
std::size_t placeOfSettings(const Ward& ward) {
    SQLite::Database database(ward.logbook.path.string());
    const auto page = database
                          .execAndGet("SELECT rootpage FROM sqlite_schema"
                                      " WHERE name = 'local_settings'")
                          .getInt64();
    return static_cast<std::size_t>(page - 1) * pageSize;
}

// A program that goes on with the logbook.
class OpenProgram {
public:
    // Its clock is not behind any of the entries: one that is has the whole log looked at.
    explicit OpenProgram(Ward& ward)
        : m_ward(ward), m_source(*station::StandingSource::open(ward.surroundings, ward.logbook)) {
        constexpr std::int64_t aMonth = 30LL * 24 * 3'600'000;
        ward.clock.advance(logbook::Duration{aMonth});
    }

    // How many records it folded for an answer in which nothing is in doubt; -1 where something is.
    [[nodiscard]] std::int64_t ask() const {
        const auto standing = m_source->ask({});
        REQUIRE(standing);
        const auto provenance = station::provenanceOf(m_ward.surroundings, *standing);
        return provenance.problems.empty() ? standing->folded : -1;
    }

private:
    Ward& m_ward;
    std::unique_ptr<station::StandingSource> m_source;
};

}  // namespace

TEST_CASE("An open program goes on as before once the disk gives the page again", "[fault]") {
    for (const int error : {EIO, EREMOTEIO}) {
        INFO("error " << error);
        Ward ward;
        fill(ward);
        const OpenProgram program(ward);
        CHECK(program.ask() > 80);
        CHECK(program.ask() == 0);
        ward.enrol("KB-0003");
        {
            const BadSectors bad(ward.logbook.path, {placeOfSettings(ward), pageSize, error});
            CHECK(program.ask() == -1);
            CHECK(program.ask() == -1);
        }
        CHECK(program.ask() > 80);
        CHECK(program.ask() == 0);
    }
}

TEST_CASE("An open program goes on as before once a mended file was verified", "[fault]") {
    Ward ward;
    fill(ward);
    const OpenProgram program(ward);
    CHECK(program.ask() > 80);
    ward.enrol("KB-0003");
    const auto bytes = ward.bytes();
    auto damaged = bytes;
    damaged.replace(placeOfSettings(ward), pageSize, pageSize, '\0');
    ward.folder.write("ward.logbook", damaged);
    CHECK(program.ask() == -1);
    ward.folder.write("ward.logbook", bytes);
    REQUIRE(station::verify(ward.surroundings, ward.logbook)->ok());
    CHECK(program.ask() > 80);
    CHECK(program.ask() == 0);
}

TEST_CASE("A start is kept whole, or told not to be, whatever the disk does not give", "[fault]") {
    Ward ward;
    fill(ward);
    const auto bytes = ward.bytes();
    const auto count = station::openLogbook(ward.surroundings, ward.logbook,
                                            station::Access::Read)->count();
    REQUIRE(count);
    int once = 0, always = 0, onPaper = 0;
    const auto start = [&](const store::test::BadPlace& place) {
        ward.folder.write("ward.logbook", bytes);
        const auto written = [&] {
            const BadSectors bad(ward.logbook.path, place);
            return station::writeEntry(ward.surroundings, ward.logbook,
                                       {"mt", "use_start", "KB-0001"});
        }();
        if (!written) {
            CHECK((ward.bytes() == bytes));
            onPaper += written.error().notice.action ==
                               ward.surroundings.words.say("entry.on_paper") ? 1 : 0;
            return false;
        }
        const auto logbook = station::openLogbook(ward.surroundings, ward.logbook,
                                                  station::Access::Read);
        CHECK(logbook->count() == *count + 1);
        CHECK(logbook->verify()->ok());
        return true;
    };
    for (const int error : {EIO, EREMOTEIO}) {
        for (std::size_t page = 0; page < bytes.size(); page += pageSize) {
            INFO("error " << error << ", page " << page / pageSize + 1);
            once += start({page, pageSize, error, 1}) ? 1 : 0;
            const auto before = onPaper;
            if (start({page, pageSize, error})) ++always;
            else CHECK(onPaper == before + 1);
        }
        const auto before = onPaper;
        CHECK_FALSE(start({.error = error}));
        CHECK(onPaper == before + 1);
    }
    CHECK(once > always);
    CHECK(always > 0);
}
