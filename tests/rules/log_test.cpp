// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The log: its order, what is known when, strikes, and the clocks of stations.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string simple = bookOfLeak("voided_by = [{ event = \"soil\" }]");

// Kim may strike, release and clear; Lee may strike; Robin writes all else and may do neither.
LogBuilder withStrikers() {
    LogBuilder log;
    log.adopt(bookOfLeak("", "[holds.incident]\nrelease_by = [\"risk\"]\n[holds.repair]\n"
                             "[authority]\nstrike = [\"lead\"]\nrelease = [\"biomed\"]\n"
                             "clear = [\"biomed\"]\n"));
    log.department().person("Kim", {"lead", "biomed"});
    log.department().person("Lee", {"lead"});
    log.department().person("Ray", {"lead", "risk"});
    log.department().person("Sam", {"biomed"});
    log.on(device).enrol({"adult"});
    return log;
}

bool isStruck(const LogBuilder& log, const RecordName& target) {
    const auto all = toLog(log);
    return all.struckBy(*all.find(target)) != nullptr;
}

bool isRefused(const LogBuilder& log, const RecordName& strike) {
    const auto all = toLog(log);
    return all.strikeUnauthorised(*all.find(strike));
}

}  // namespace

TEST_CASE("records are read in the order at, entered, station, seq", "[unit]") {
    LogBuilder log = logWith(simple);
    SECTION("at") {
        log.on(device).at("10:00").pass("leak");
        log.on(device).at("09:00").entered("11:00").soil();
        CHECK(status(assessed(log)) == "current");
    }
    SECTION("then entered") {
        log.on(device).at("10:00").entered("10:02").soil();
        log.on(device).at("10:00").entered("10:01").pass("leak");
        CHECK(status(assessed(log)) == "due");
    }
    SECTION("then station") {
        log.on(device).station("icu-2").at("10:00").soil();
        log.on(device).station("icu-1").at("10:00").pass("leak");
        CHECK(status(assessed(log)) == "due");
    }
    SECTION("then seq") {
        log.on(device).at("10:00").soil();
        log.on(device).at("10:00").pass("leak");
        CHECK(status(assessed(log)) == "current");
    }
    const auto all = toLog(log);
    for (std::size_t index = 1; index < all.records().size(); ++index) {
        CHECK((logbook::readingOrder(all.records()[index - 1], all.records()[index]) < 0));
    }
}

TEST_CASE("what takes part: happened by the instant and known by the other", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).at("10:00").entered("11:00").pass("leak");
    const auto standing = [&log](std::string_view at, std::string_view knownAt) {
        return status(assessed(log, Asked{.at = when(at), .knownAt = when(knownAt)}));
    };
    CHECK(standing("09:59:59.999", "12:00") == "due");
    CHECK(standing("10:00", "12:00") == "current");
    CHECK(standing("10:00", "11:00") == "current");
    CHECK(standing("10:00", "10:59:59.999") == "due");
    CHECK(standing("12:00", "10:59:59.999") == "due");
}

TEST_CASE("a record is found by its name", "[unit]") {
    LogBuilder log = logWith(simple);
    const auto second = log.on(device).station("icu-2").pass("leak");
    const auto all = toLog(log);
    CHECK(all.records()[*all.find(second)].name == second);
    CHECK(all.records()[*all.find({"icu-1", 1})].kind() == logbook::Kind::Adopt);
    CHECK_FALSE(all.find({"icu-1", 3}));
    CHECK_FALSE(all.find({"icu-2", 2}));
    CHECK_FALSE(all.find({"icu-0", 1}));
}

TEST_CASE("the end of what is known", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).at("09:00").entered("12:00").pass("leak");
    log.on(device).at("10:00").pass("leak");
    const auto all = toLog(log);
    CHECK(text(all.endOfKnowledge(rules::unlimited)) == "2026-03-02T12:00:00.001Z");
    CHECK(text(all.endOfKnowledge(when("12:00"))) == "2026-03-02T12:00:00.001Z");
    CHECK(text(all.endOfKnowledge(when("11:59"))) == "2026-03-02T10:00:00.001Z");
    CHECK_FALSE(all.endOfKnowledge(when("07:00")));
}

TEST_CASE("a struck record never happened, whatever the instant of the strike", "[unit]") {
    LogBuilder log = logWith(simple);
    const auto passed = log.on(device).at("09:00").pass("leak");
    const auto strike = log.on(device).at("12:00").strike(passed);
    CHECK(did(log) == " /  / effective");
    const auto standing = [&log](std::string_view at, Instant knownAt = rules::unlimited) {
        return status(assessed(log, Asked{.at = when(at), .knownAt = knownAt}));
    };
    CHECK(standing("10:00") == "due");
    CHECK(standing("13:00") == "due");
    CHECK(standing("10:00", when("11:59:59.999")) == "current");
    CHECK(standing("10:00", when("12:00")) == "due");
    const auto all = toLog(log);
    CHECK(all.struckBy(*all.find(passed))->name == strike);
    CHECK(all.struckBy(*all.find(strike)) == nullptr);
}

TEST_CASE("the strike that was entered first counts", "[unit]") {
    LogBuilder log = logWith(simple);
    const auto passed = log.on(device).at("09:00").pass("leak");
    log.on(device).at("12:00").strike(passed);
    const auto first = log.on(device).station("icu-2").at("11:00").strike(passed);
    log.on(device).at("13:00").strike(passed);
    const auto all = toLog(log);
    CHECK(all.struckBy(*all.find(passed))->name == first);
}

TEST_CASE("the order of a strike and its target does not matter", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).station("icu-2").at("09:00").strike({"icu-1", 3});
    log.on(device).at("10:00").pass("leak");
    CHECK(status(assessed(log)) == "due");
}

TEST_CASE("adopt, person and strike cannot be struck, nor what does not exist", "[unit]") {
    LogBuilder log = logWith(simple);
    const auto person = log.department().person("Kim", {});
    const auto passed = log.on(device).pass("leak");
    const auto strike = log.on(device).strike(passed);
    for (const RecordName& target : {RecordName{"icu-1", 1}, person, strike}) {
        log.on(device).strike(target);
        CHECK_FALSE(isStruck(log, target));
        CHECK(did(log) == " /  / effective");
    }
    CHECK(isStruck(log, passed));
    const auto nothing = log.on(device).strike({"icu-9", 1});
    CHECK_FALSE(isRefused(log, nothing));
    CHECK(stateOf(log).persons.contains("Kim"));
}

TEST_CASE("who may strike", "[unit]") {
    LogBuilder log = withStrikers();
    const auto struckBy = [&log](const RecordName& target, const std::string& person) {
        const auto strike = log.on(device).by(person).strike(target);
        const bool refused = isRefused(log, strike);
        CHECK(refused != isStruck(log, target));
        return !refused;
    };
    SECTION("one's own, and another's with the role") {
        CHECK(struckBy(log.on(device).pass("leak"), "Robin"));
        CHECK(struckBy(log.on(device).pass("leak"), "Lee"));
        CHECK_FALSE(struckBy(log.on(device).pass("leak"), "Sam"));
        CHECK_FALSE(struckBy(log.on(device).by("Kim").pass("leak"), "Robin"));
    }
    SECTION("a hold only by who may release it besides") {
        CHECK_FALSE(struckBy(log.on(device).withdraw("repair"), "Robin"));
        CHECK_FALSE(struckBy(log.on(device).withdraw("repair"), "Lee"));
        CHECK_FALSE(struckBy(log.on(device).withdraw("repair"), "Sam"));
        CHECK(struckBy(log.on(device).withdraw("repair"), "Kim"));
        CHECK(struckBy(log.on(device).by("Sam").withdraw("repair"), "Sam"));
        CHECK_FALSE(struckBy(log.on(device).withdraw("incident"), "Kim"));
        CHECK(struckBy(log.on(device).withdraw("incident"), "Ray"));
    }
    SECTION("a fault only by who may clear it besides") {
        CHECK_FALSE(struckBy(log.on(device).fault("fan"), "Robin"));
        CHECK_FALSE(struckBy(log.on(device).fault("fan"), "Ray"));
        CHECK_FALSE(struckBy(log.on(device).fault("fan"), "Sam"));
        CHECK(struckBy(log.on(device).fault("fan"), "Kim"));
        CHECK(struckBy(log.on(device).by("Sam").fault("fan"), "Sam"));
    }
}

TEST_CASE("a strike without the role of what is not there or cannot be struck", "[unit]") {
    LogBuilder log = withStrikers();
    CHECK(isRefused(log, log.on(device).strike({"icu-9", 1})));
    CHECK_FALSE(isRefused(log, log.on(device).by("Lee").strike({"icu-9", 1})));
    CHECK_FALSE(isRefused(log, log.on(device).strike({"icu-1", 1})));  // one's own
    CHECK(isRefused(log, log.on(device).by("Sam").strike({"icu-1", 1})));
}

TEST_CASE("a strike is judged by the persons and the edition before it", "[unit]") {
    LogBuilder log = withStrikers();
    const auto passed = log.on(device).at("09:00").pass("leak");
    SECTION("a person who got the role later") {
        const auto early = log.on(device).at("10:00").by("Sam").strike(passed);
        log.department().at("10:30").person("Sam", {"lead"});
        CHECK(isRefused(log, early));
        const auto late = log.on(device).at("11:00").by("Sam").strike(passed);
        CHECK_FALSE(isRefused(log, late));
        CHECK(status(assessed(log, "09:30")) == "due");  // whatever instant is asked for
    }
    SECTION("an edition that asks for no role") {
        log.department().at("10:00").adopt(book("[checks.leak]\ntakes = \"PT2M\"\n", {"2"}));
        CHECK_FALSE(isRefused(log, log.on(device).at("11:00").by("Sam").strike(passed)));
    }
}

TEST_CASE("a clock set back", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).at("10:00").entered("10:30").note();                     // icu-1/3
    const auto back = log.on(device).at("10:10").entered("10:29:59").note();
    const auto same = log.on(device).at("10:20").entered("10:29:59").note();
    const auto late = log.on(device).at("08:30").entered("11:00").note();
    const auto other = log.on(device).station("icu-2").at("09:00").note();
    const auto all = toLog(log);
    const auto isBack = [&all](const RecordName& name, Instant knownAt = rules::unlimited) {
        return all.clockBack(*all.find(name), knownAt);
    };
    CHECK_FALSE(isBack({"icu-1", 1}));
    CHECK_FALSE(isBack({"icu-1", 3}));
    CHECK(isBack(back));
    CHECK_FALSE(isBack(same));
    CHECK_FALSE(isBack(late));  // late is not set back
    CHECK_FALSE(isBack(other));
    CHECK(isBack(back, when("10:30")));
    CHECK_FALSE(isBack(back, when("10:29:59.999")));  // the one before it is not known yet
}

TEST_CASE("a clock set back shows on a station whose name comes second", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).station("icu-2").at("12:00").note();
    const auto back = log.on(device).station("icu-2").at("11:00").note();
    const auto all = toLog(log);
    CHECK(all.clockBack(*all.find(back), rules::unlimited));
    CHECK_FALSE(all.clockBack(*all.find({"icu-2", 1}), rules::unlimited));
}

TEST_CASE("editions", "[unit]") {
    LogBuilder log;
    log.on(device).at("07:00").enrol({"adult"});
    CHECK_FALSE(toLog(log).firstEdition());
    log.department().at("08:00").adopt(simple);
    log.department().at("09:00").adopt(book("", {"2"}));
    const auto all = toLog(log);
    CHECK(all.firstEdition()->edition == "1");
    CHECK(all.editions().size() == 2);
    CHECK(all.faults().empty());
    CHECK_FALSE(all.hasEdition(when("07:59:59.999"), rules::unlimited));
    CHECK(all.hasEdition(when("08:00"), rules::unlimited));
    CHECK_FALSE(all.hasEdition(when("12:00"), when("07:59")));
    CHECK(stateOf(log, asked("07:30")).rulebook->edition == "1");
    CHECK_FALSE(stateOf(log, asked("07:30")).adopted);
    CHECK(stateOf(log, asked("08:59")).rulebook->edition == "1");
    CHECK(stateOf(log, asked("09:00")).rulebook->edition == "2");
    CHECK(stateOf(log, asked("09:00")).adopted->at == when("09:00"));
}

TEST_CASE("an adoption whose text is refused, or is of another edition, has no effect", "[unit]") {
    LogBuilder log;
    const auto bad = log.department().write("adopt", {{"edition", "0"}, {"text", "format = 2"}});
    log.adopt(simple);
    const auto wrong = log.department().write("adopt", {{"edition", "7"}, {"text", book("")}});
    log.on(device).enrol({"adult"});
    const auto all = toLog(log);
    REQUIRE(all.faults().size() == 2);
    CHECK(all.faults()[0].code == rules::LogFault::Code::BadRulebook);
    CHECK(all.faults()[0].record == bad);
    CHECK_FALSE(all.faults()[0].remarks.empty());
    CHECK(all.faults()[1].code == rules::LogFault::Code::WrongEdition);
    CHECK(all.faults()[1].record == wrong);
    CHECK(all.firstEdition()->edition == "1");
    const auto state = all.stateAt(when("12:00"), rules::unlimited);
    CHECK(state.rulebook->check("leak"));
    CHECK(state.adopted->name.seq == 2);
    log.department().write("adopt", {{"edition", "8"}, {"text", "format = 2"}});
    CHECK(did(log) == " /  / without effect");
}

TEST_CASE("a log without an edition strikes nothing", "[unit]") {
    LogBuilder log;
    const auto note = log.on(device).note();
    log.on(device).strike(note);
    CHECK_FALSE(isStruck(log, note));
}
