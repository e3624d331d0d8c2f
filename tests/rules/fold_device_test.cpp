// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Enrolment, retirement, and the records that say something of the device as a whole.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string anyEvent = bookOfLeak(
    "voided_by = [{ event = \"group\" }, { event = \"move\" }, { event = \"power_on\" }]");

rules::Device deviceAfter(const LogBuilder& log) { return deviceOf(stateOf(log)); }

}  // namespace

TEST_CASE("enrolling again replaces what is known and resets nothing", "[unit]") {
    LogBuilder log = logWith(book("[positions.circuit]\n"));
    log.on(device).fit("circuit");
    log.on(device).fault("fan");
    log.on(device).useStart();
    log.on(device).move("ICU 2");
    log.on(device).enrol({"adult"}, {"co2"}, {{"model", "Rowan"}, {"owner", "Loan pool"}});
    CHECK(did(log) == " /  / effective");
    const auto after = deviceAfter(log);
    CHECK(after.enrolment.model == "Rowan");
    CHECK(after.enrolment.features == Texts{"co2"});
    CHECK(after.enrolment.owner == "Loan pool");
    CHECK(after.location == "ICU 2");
    CHECK(after.use);
    CHECK(after.fitted.contains("circuit"));
    CHECK(after.faults.contains("fan"));
    CHECK(toText(after.enrolled.name) == "icu-1/2");

    log.on(device).enrol({"adult"}, {}, {{"location", "Store"}});
    CHECK(deviceAfter(log).location == "Store");
    CHECK_FALSE(deviceAfter(log).enrolment.owner);
}

TEST_CASE("the first enrolment tells where the device is", "[unit]") {
    LogBuilder log;
    log.adopt(book(""));
    log.on(device).enrol({"adult"}, {}, {{"location", "ICU 1"}});
    CHECK(deviceAfter(log).location == "ICU 1");
    log.on("KB-2").enrol({"adult"});
    CHECK(deviceOf(stateOf(log), "KB-2").location.empty());
}

TEST_CASE("enrolling again raises the event group if the selected one changes", "[unit]") {
    LogBuilder log = logWith(anyEvent);
    SECTION("from the only one to none") {
        log.on(device).enrol({"adult", "pediatric"});
        CHECK(did(log) == "KB-1 group /  / effective");
        CHECK(status(assessed(log)) == "due");
        CHECK(findings(assessed(log)) == "due leak, group_unset");
    }
    SECTION("from none to the only one") {
        log.on(device).enrol({"adult", "pediatric"});
        log.on(device).enrol({"pediatric"});
        CHECK(did(log) == "KB-1 group /  / effective");
    }
    SECTION("not if one was selected: that stays") {
        log.on(device).group("adult");
        log.on(device).enrol({"adult", "pediatric"});
        CHECK(did(log) == " /  / effective");
        CHECK(deviceAfter(log).group() == "adult");
    }
    SECTION("not at the first enrolment") {
        log.on("KB-2").enrol({"adult"});
        CHECK(did(log) == " /  / effective");
    }
}

TEST_CASE("a device that was never enrolled has no records but notes", "[unit]") {
    LogBuilder log;
    log.adopt(anyEvent);
    SECTION("a device kind has no effect") {
        log.on(device).move("ICU 1");
        CHECK(did(log) == " / unenrolled / without effect");
    }
    SECTION("a start is counted all the same") {
        log.on(device).useStart();
        CHECK(lastEffect(log).countedStart);
        CHECK(did(log) == " / unenrolled / without effect");
        log.on(device).useEnd();
        CHECK_FALSE(lastEffect(log).countedStart);
    }
    SECTION("a note is no anomaly") {
        const auto note = log.on(device).note();
        CHECK(did(log) == " /  / without effect");
        log.on(device).write("review", {{"target", logbook::toText(note)},
                                        {"disposition", "confirmed"}, {"text", ""}});
        CHECK(did(log) == " /  / without effect");
        log.on(device).strike(note);
        CHECK(did(log) == " /  / without effect");
    }
    SECTION("nor does what came before the enrolment count after it") {
        log.on(device).fault("fan");
        log.on(device).enrol({"adult"});
        CHECK(deviceAfter(log).faults.empty());
        CHECK(toText(deviceAfter(log).last->name) == "icu-1/3");
    }
}

TEST_CASE("retiring ends use, holds and faults and empties the positions", "[unit]") {
    LogBuilder log = logWith(book("[positions.circuit]\n[positions.cell]\n"));
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).fit("cell");
    log.on(device).withdraw("repair");
    log.on(device).fault("fan");
    log.on(device).useStart();
    log.on(device).retire();
    CHECK(did(log) == " /  / effective");
    CHECK_FALSE(lastEffect(log).endedUse);
    const auto state = stateOf(log);
    const auto& after = deviceOf(state);
    CHECK(after.retired);
    CHECK_FALSE(after.use);
    CHECK(after.holds.empty());
    CHECK(after.faults.empty());
    CHECK(after.fitted.empty());
    CHECK(state.parts.at({"circuit", "C1"})->device.empty());

    const auto assessment = assessed(log);
    CHECK(verdict(assessment) == "retired");
    CHECK(assessment.findings.empty());
    CHECK(assessment.checks.empty());
    CHECK_FALSE(assessment.group);
    CHECK(toText(assessment.last->name) == "icu-1/8");
    CHECK_FALSE(assessed(log, Asked{.group = "adult"}).group);
}

TEST_CASE("after retiring nothing has effect but an enrolment, which starts afresh", "[unit]") {
    LogBuilder log = logWith(anyEvent);
    log.on(device).power(true);
    log.on(device).group("adult");
    log.on(device).pass("leak");
    log.on(device).retire();
    log.on(device).move("ICU 1");
    CHECK(did(log) == " / unenrolled / without effect");
    log.on(device).useStart();
    CHECK(lastEffect(log).countedStart);
    CHECK(toText(deviceAfter(log).last->name) == "icu-1/8");
    log.on(device).note();
    CHECK(did(log) == " /  / without effect");
    log.on(device).enrol({"adult", "pediatric"});
    CHECK(did(log) == " /  / effective");
    const auto after = deviceAfter(log);
    CHECK_FALSE(after.retired);
    CHECK_FALSE(after.poweredSince);
    CHECK_FALSE(after.selectedGroup);
    CHECK(after.checks.empty());
    CHECK(toText(after.enrolled.name) == "icu-1/10");
    CHECK(findings(assessed(log)) == "due leak, group_unset");
}

TEST_CASE("the selected group", "[unit]") {
    LogBuilder log;
    log.adopt(anyEvent);
    SECTION("before any selection it is the only one") {
        log.on(device).enrol({"adult"});
        CHECK(assessed(log).group == "adult");
        log.on(device).group("adult");
        CHECK(did(log) == " /  / without effect");
        log.on(device).enrol({"pediatric"});
        CHECK(deviceAfter(log).group() == "adult");  // a selection that changed nothing stands
        CHECK(findings(assessed(log)) == "due leak, group_unsupported adult");
    }
    SECTION("among several there is none until one is selected") {
        log.on(device).enrol({"adult", "pediatric"});
        CHECK_FALSE(assessed(log).group);
        log.on(device).group("adult");
        CHECK(did(log) == "KB-1 group /  / effective");
        log.on(device).group("adult");
        CHECK(did(log) == " /  / without effect");
        log.on(device).group("pediatric");
        CHECK(did(log) == "KB-1 group /  / effective");
        CHECK(assessed(log).group == "pediatric");
    }
    SECTION("a device for no group has none") {
        log.on(device).enrol({});
        CHECK_FALSE(assessed(log).group);
    }
}

TEST_CASE("power", "[unit]") {
    LogBuilder log = logWith(anyEvent);
    CHECK_FALSE(deviceAfter(log).poweredSince);
    log.on(device).power(false);
    CHECK(did(log) == " /  / without effect");  // off while unknown
    log.on(device).at("09:00").power(true);
    CHECK(did(log) == "KB-1 power_on /  / effective");
    log.on(device).at("09:10").power(true);
    CHECK(did(log) == " /  / without effect");
    CHECK(text(deviceAfter(log).poweredSince) == "2026-03-02T09:00:00Z");
    log.on(device).power(false);
    CHECK(did(log) == "KB-1 power_off /  / effective");
    CHECK_FALSE(deviceAfter(log).poweredSince);
    log.on(device).power(false);
    CHECK(did(log) == " /  / without effect");
}

TEST_CASE("moved, seen, new software, alarms", "[unit]") {
    LogBuilder log = logWith(anyEvent);
    log.on(device).move("ICU 1");
    CHECK(did(log) == "KB-1 move /  / effective");
    CHECK(deviceAfter(log).location == "ICU 1");
    log.on(device).move("ICU 1");
    CHECK(did(log) == "KB-1 move /  / effective");
    log.on(device).sighted("Store");
    CHECK(did(log) == " /  / effective");
    CHECK(deviceAfter(log).location == "Store");
    log.on(device).software("3.1");
    CHECK(did(log) == "KB-1 software /  / effective");
    CHECK(deviceAfter(log).software == "3.1");
    log.on(device).alarm("tech_12");
    CHECK(did(log) == "KB-1 alarm tech_12 /  / effective");
}

TEST_CASE("what is for people has no effect but that something was written", "[unit]") {
    LogBuilder log = logWith(anyEvent);
    log.on(device).pass("leak");
    const auto before = assessed(log);
    const auto note = log.on(device).note();
    CHECK(did(log) == " /  / effective");
    log.department().write("sign", {{"scope", "month"}, {"known_at", "2026-03-02T08:00:00Z"},
                                    {"digest", "00"}, {"heads", json::Object{}}});
    CHECK(did(log) == " /  / effective");
    const auto after = assessed(log);
    CHECK(after.verdict == rules::Verdict::Ready);
    CHECK(after.checks == before.checks);
    CHECK(after.last->name == note);
}

TEST_CASE("department-wide records are no record of a device", "[unit]") {
    LogBuilder log = logWith(book("[positions.circuit]\n"));
    log.department().person("Kim", {"biomed"});
    log.department().notice("n1", {{"devices", list({device})}});
    log.department().reprocessPart("circuit", "C1");
    CHECK(toText(deviceAfter(log).last->name) == "icu-1/2");
    const auto state = stateOf(log);
    CHECK(state.persons.at("Kim").person.roles == Texts{"biomed"});
    CHECK(state.notices.contains("n1"));
}
