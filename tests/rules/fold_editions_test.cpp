// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Editions: which one judges what, and what an edition does to a key that it names anew.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

std::string edition(const std::string& number, const std::string& sections) {
    return book(sections, {number});
}

const std::string leak = "[checks.leak]\ntakes = \"PT2M\"\nwaivable = true\n";

}  // namespace

TEST_CASE("a check named anew begins without a past", "[unit]") {
    LogBuilder log = logWith(edition("1", leak));
    log.on(device).at("09:00").pass("leak");
    log.on(device).at("09:10").waive("due", "leak", "23:00");
    log.on(device).at("09:20").waive("lapsed", "leak", "23:00");
    SECTION("named by the edition before: it keeps what it had") {
        log.department().at("10:00").adopt(edition("2", leak));
        CHECK(did(log) == " /  / effective");
        CHECK(status(assessed(log)) == "current");
        CHECK(deviceOf(stateOf(log)).waivers.size() == 2);
    }
    SECTION("left out in between: all is gone, its waivers too") {
        log.department().at("10:00").adopt(edition("2", ""));
        CHECK(findings(assessed(log)).empty());
        CHECK(deviceOf(stateOf(log)).waivers.size() == 2);
        log.department().at("11:00").adopt(edition("3", leak));
        const auto assessment = assessed(log, "12:00");
        CHECK(findings(assessment) == "due leak");
        CHECK_FALSE(finding(assessment, "due leak").waivedUntil);
        CHECK(restsOn(finding(assessment, "due leak")).empty());
        CHECK(deviceOf(stateOf(log)).waivers.empty());
    }
}

TEST_CASE("a position named anew is emptied without an event", "[unit]") {
    const std::string circuit = "[positions.circuit]\nchange_after = \"P1D\"\n";
    LogBuilder log = logWith(edition("1", circuit + leak));
    log.on("KB-2").enrol({"adult"});
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on("KB-2").fit("circuit");
    log.on(device).waive("change_due", "circuit", "23:00");
    log.on(device).waive("due", "leak", "23:00");
    log.adopt(edition("2", leak));
    CHECK(deviceOf(stateOf(log)).fitted.size() == 1);
    log.adopt(edition("3", circuit + leak));
    CHECK(did(log) == " /  / effective");
    const auto state = stateOf(log);
    CHECK(deviceOf(state).fitted.empty());
    CHECK(deviceOf(state, "KB-2").fitted.empty());
    CHECK(state.parts.at({"circuit", "C1"})->device.empty());
    CHECK(deviceOf(state).waivers.size() == 1);
    CHECK(deviceOf(state).lastHeld.contains("circuit"));
}

TEST_CASE("a service named anew is called for if an event can call for it", "[unit]") {
    const std::string both =
        "[services.repair]\ndue_after = [\"clear *\"]\n[services.yearly]\nevery = \"P12M\"\n";
    LogBuilder log = logWith(edition("1", leak));
    log.on(device).pass("leak");
    const auto adopted = log.adopt(edition("2", leak + both));
    const auto assessment = assessed(log, "12:00");
    CHECK(findings(assessment) == "service_outstanding repair");
    CHECK(restsOn(finding(assessment, "service_outstanding repair")) == toText(adopted));
    CHECK(status(assessment) == "current");
    log.on(device).waive("service_overdue", "yearly", "23:00");
    log.adopt(edition("3", leak + both));
    CHECK(deviceOf(stateOf(log)).waivers.size() == 1);
    log.adopt(edition("4", leak));
    log.adopt(edition("5", leak + both));
    CHECK(deviceOf(stateOf(log)).waivers.empty());
}

TEST_CASE("the first edition names nothing anew", "[unit]") {
    LogBuilder log;
    log.on(device).at("07:00").enrol({"adult"});
    log.on(device).at("07:10").pass("leak");
    log.department().at("09:00").adopt(
        edition("1", leak + "[services.repair]\ndue_after = [\"clear *\"]\n"));
    CHECK(status(assessed(log)) == "current");
    CHECK(findings(assessed(log)).empty());
    CHECK(assessed(log, "07:30").verdict == rules::Verdict::Ready);  // by the first, before it
}

TEST_CASE("a record without the authority names nothing anew", "[unit]") {
    LogBuilder log = logWith(edition("1", "[authority]\nadopt = [\"manager\"]\n"));
    log.adopt(edition("2", leak));
    CHECK(did(log) == " / unauthorised / without effect");
    CHECK(stateOf(log).rulebook->edition == "1");
    CHECK(findings(assessed(log)).empty());
}

TEST_CASE("an edition that leaves a thing out leaves it out of the answer", "[unit]") {
    LogBuilder log = logWith(edition(
        "1", leak + "[positions.circuit]\nreuse = \"single_use\"\n[positions.hme]\n"
                    "[services.yearly]\nevery = \"P12M\"\n[choices.c]\npositions = [\"hme\"]\n"
                    "[conflicts.x]\nwhen = { \"circuit.fitted\" = true }\n"));
    log.on(device).fit("circuit", {{"lot", "L1"}});
    log.on(device).soil();
    log.on(device).service("yearly", "fail");
    log.department().notice("n1", {{"position", "circuit"}});
    CHECK(findings(assessed(log, "10:00")) ==
          "conflict x, due leak, missing c, notice n1, service_failed yearly, spent circuit");
    log.department().at("11:00").adopt(edition("2", ""));
    CHECK(findings(assessed(log, "12:00")).empty());
    CHECK(assessed(log, "12:00").checks.empty());
    // Asked for before, the edition before answers.
    CHECK(findings(assessed(log, "10:30")).find("due leak") != std::string::npos);
}

TEST_CASE("what voids a check is said by the edition of the record's instant", "[unit]") {
    LogBuilder log = logWith(edition("1", leak));
    log.on(device).at("09:00").pass("leak");
    log.on(device).at("10:00").soil();
    log.department().at("11:00").adopt(edition(
        "2", leak + "voided_by = [{ event = \"soil\" }]\n"));
    CHECK(status(assessed(log)) == "current");  // soil voided nothing then
    log.on(device).at("12:00").soil();
    CHECK(status(assessed(log)) == "due");
    // A late entry of before the adoption is judged by the edition of then.
    log.on(device).at("12:10").pass("leak");
    log.on(device).at("10:30").entered("12:20").soil();
    CHECK(status(assessed(log)) == "current");
}

TEST_CASE("the reuse that an attribute falls back on is that of the fit's edition", "[unit]") {
    const auto circuit = [](const std::string& reuse) {
        return leak + R"(voided_by = [{ event = "fit circuit", only = "different reuse" }])" +
               "\n[positions.circuit]\nreuse = \"" + reuse + "\"\n";
    };
    LogBuilder log = logWith(edition("1", circuit("reusable")));
    log.on(device).fit("circuit");
    log.on(device).pass("leak");
    log.adopt(edition("2", circuit("single_use")));
    log.on(device).fit("circuit");
    CHECK(status(assessed(log)) == "current");
    log.on(device).fit("circuit", {{"reuse", "reusable"}});
    CHECK(status(assessed(log)) == "due");
}
