// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where there is no plan, and why; and what runs out before a plan is done.
#include "rules/plan_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string leak = "[checks.leak]\ntakes = \"PT2M\"\n";

void checkBlocked(const LogBuilder& log, const std::string& by) {
    const auto plan = planned(log);
    CHECK(blockers(plan) == by);
    CHECK_FALSE(plan.readyAt);
    CHECK(plan.tasks.empty());
    CHECK(plan.runsOut.empty());
}

}  // namespace

TEST_CASE("no plan for a device that is retired", "[unit]") {
    LogBuilder log = logWith(book(leak));
    log.on(device).withdraw("incident");
    log.on(device).retire();
    checkBlocked(log, "retired");
    CHECK_FALSE(planned(log).group);
}

TEST_CASE("no plan for a device in use", "[unit]") {
    LogBuilder log = logWith(book(leak));
    log.on(device).useStart();
    checkBlocked(log, "in_use");
    log.on(device).usePause();
    checkBlocked(log, "in_use");
    log.on(device).useEnd();
    CHECK(tasks(planned(log)) == "check leak");
}

TEST_CASE("no plan lifts a hold, clears a fault or ends a notice", "[unit]") {
    LogBuilder log = logWith(book(leak + "[faults.noise]\nblocking = false\n"));
    log.on(device).fault("noise");
    CHECK(tasks(planned(log)) == "check leak");
    log.on(device).fault("fan");
    checkBlocked(log, "fault fan");
    log.on(device).withdraw("repair");
    log.on(device).withdraw("incident");
    checkBlocked(log, "fault fan, withdrawn incident, withdrawn repair");
    log.department().notice("n1");
    log.department().notice("n2", {}, "inspect");
    checkBlocked(log, "fault fan, notice n1, withdrawn incident, withdrawn repair");
    log.on(device).noticeDone("n1");
    log.on(device).clear("fan");
    log.on(device).release("repair");
    checkBlocked(log, "withdrawn incident");
}

TEST_CASE("no plan without a group that the device supports", "[unit]") {
    LogBuilder log;
    log.adopt(book("[positions.circuit]\nrequired = true\nmatch_group = true\n" + leak));
    log.on(device).enrol({"adult", "pediatric"});
    checkBlocked(log, "group_unset");
    CHECK(blockers(plannedFor("neonatal", log)) == "group_unsupported neonatal");
    CHECK(tasks(plannedFor("adult", log)) == "group adult, fit circuit, check leak");
}

TEST_CASE("no plan does a service", "[unit]") {
    const auto logOf = [](const std::string& rules) {
        return logWith(book("[services.acceptance]\n" + rules));
    };
    SECTION("that failed") {
        LogBuilder log = logOf("");
        log.on(device).service("acceptance", "fail");
        checkBlocked(log, "service_failed acceptance");
    }
    SECTION("that is outstanding") {
        checkBlocked(logOf("before_first_use = true\n"), "service_outstanding acceptance");
    }
    SECTION("that is overdue, if it is not waived") {
        LogBuilder log = logOf("every = \"P1M\"\n");
        checkBlocked(log, "service_overdue acceptance");
        log.on(device).at("09:00").waive("service_overdue", "acceptance", "11:00");
        CHECK(planned(log).readyAt == when("10:00"));
    }
    SECTION("that falls due by a task of its own") {
        LogBuilder log = logWith(book("[positions.circuit]\nrequired = true\n"
                                      "[services.acceptance]\ndue_after = [\"fit circuit\"]\n"));
        checkBlocked(log, "service_outstanding acceptance");
    }
    SECTION("that falls due by the event of a group") {
        LogBuilder log;
        log.adopt(book("[services.acceptance]\ndue_after = [\"group\"]\n"));
        log.on(device).enrol({"adult", "pediatric"});
        CHECK(blockers(plannedFor("adult", log)) == "service_outstanding acceptance");
    }
}

TEST_CASE("no plan where a conflict remains", "[unit]") {
    LogBuilder log = logWith(
        book("[positions.a]\n[positions.b]\n[conflicts.both]\nwhen = { \"a.fitted\" = true, "
             "\"b.fitted\" = true }\n"));
    log.on(device).fit("a");
    CHECK(planned(log).readyAt == when("10:00"));
    log.on(device).fit("b");
    checkBlocked(log, "conflict both");
}

TEST_CASE("no plan where a choice takes out what a check needs", "[unit]") {
    LogBuilder log = logWith(
        book("[positions.a]\n[positions.b]\n[choices.one]\npositions = [\"a\", \"b\"]\n" + leak +
             "needs_match = [\"b\"]\n"));
    log.on(device).fit("a", {{"groups", list({"adult"})}});
    log.on(device).fit("b", {{"groups", list({"adult"})}});
    checkBlocked(log, "conflict one");
    log.on(device).remove("a");
    CHECK(tasks(planned(log)) == "check leak");
}

TEST_CASE("no plan where a finding remains that no task remedies", "[unit]") {
    LogBuilder log = logWith(
        book("[positions.a]\n[positions.b]\nrequired = true\n[choices.one]\npositions = "
             "[\"a\", \"b\"]\n"));
    log.on(device).fit("a");
    log.on(device).fit("b");
    checkBlocked(log, "missing b");
}

TEST_CASE("what stands in the way is named before what cannot be put in order", "[unit]") {
    LogBuilder log = logWith(
        book("[positions.hme]\n" + leak +
             "needs_match = [\"hme\"]\nnot_with = [{ position = \"hme\" }]\n"));
    checkBlocked(log, "closing_fit hme");
    log.on(device).withdraw("incident");
    checkBlocked(log, "withdrawn incident");
}

TEST_CASE("what runs out before a plan is done", "[unit]") {
    const std::string battery = "[checks.battery]\ntakes = \"PT1M\"\nvalid_for = \"PT2H\"\n"
                                "waivable = true\n";
    SECTION("a check that lapses, at the very finish too") {
        LogBuilder log = logWith(book(leak + battery));
        log.on(device).at("08:02").pass("battery");
        CHECK(timed(planned(log)) == "check leak 0-120");
        CHECK(runsOut(planned(log)) == "lapsed battery");
        CHECK(runsOut(planned(log, "09:59")).empty());
        CHECK(tasks(planned(log, "10:02")) == "check battery, check leak");
    }
    SECTION("whether it blocks or not, sorted") {
        LogBuilder log = logWith(book(leak + battery + "blocks = false\n[checks.alarm]\n"
                                                       "takes = \"PT1M\"\nvalid_for = \"PT2H\"\n"));
        log.on(device).at("08:02").pass("battery");
        log.on(device).at("08:02").pass("alarm");
        CHECK(runsOut(planned(log)) == "lapsed alarm, lapsed battery");
    }
    SECTION("a check that a task of the plan is") {
        LogBuilder log = logWith(
            book("[checks.leak]\ntakes = \"PT3M\"\nafter = [\"battery\"]\n"
                 "[checks.battery]\ntakes = \"PT1M\"\nvalid_for = \"PT2M\"\n"));
        CHECK(timed(planned(log)) == "check battery 0-60, check leak 60-240");
        CHECK(runsOut(planned(log)) == "lapsed battery");
    }
    SECTION("a part that is to be changed, or expires, by then") {
        LogBuilder log = logWith(book(leak + "[positions.circuit]\nchange_after = \"PT2H\"\n"
                                             "[positions.hme]\n"));
        log.on(device).at("08:01").fit("circuit");
        log.on(device).at("08:01").fit("hme", {{"expires", "2026-03-02"}});
        CHECK(runsOut(planned(log)) == "change_due circuit");
        log.on(device).at("08:03").fit("circuit");
        CHECK(runsOut(planned(log)).empty());
        LogBuilder night = log;
        night.on(device).at("23:58").fit("circuit");
        CHECK(runsOut(planned(night, "23:58")) == "expired hme");
    }
    SECTION("a waiver that ends by then") {
        LogBuilder log = logWith(book(leak + battery));
        log.on(device).at("09:00").waive("due", "battery", "10:02");
        CHECK(timed(planned(log)) == "check leak 0-120");
        CHECK(runsOut(planned(log)) == "due battery");
        log.on(device).at("09:00").waive("due", "battery", "10:02:01");
        CHECK(runsOut(planned(log)).empty());
    }
    SECTION("a waived finding that comes") {
        LogBuilder log = logWith(book(leak + battery));
        log.on(device).at("08:02").pass("battery");
        log.on(device).at("09:00").waive("lapsed", "battery", "11:00");
        CHECK(runsOut(planned(log)) == "lapsed battery");
    }
    SECTION("a service by midnight, and not the device that was seen meanwhile") {
        LogBuilder log;
        log.adopt(book(leak + "[services.monthly]\nevery = \"P1M\"\ngrace = \"P30D\"\n",
                       {.more = "confirm_every = \"PT3H\"\n"}));
        log.on(device).enrol({"adult"}, {}, {{"commissioned", "2026-02-02"}});
        log.on(device).at("21:00").sighted("Store");
        CHECK(runsOut(planned(log, "23:58")) == "service_due monthly");
        CHECK(runsOut(planned(log, "23:57")).empty());
    }
    SECTION("nothing where nothing does") {
        LogBuilder log = logWith(book(leak + battery));
        CHECK(timed(planned(log)) == "check battery 0-60, check leak 60-180");
        CHECK(runsOut(planned(log)).empty());
    }
}
