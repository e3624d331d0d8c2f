// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// When a plan's tasks start and finish: the person's time, the bench, waits, and what comes first
// among orders that finish at the same time.
#include "rules/plan_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

std::string check(const std::string& key, const std::string& takes, const std::string& more = "") {
    return "[checks." + key + "]\ntakes = \"" + takes + "\"\n" + more + "\n";
}

std::string missing(const std::string& position, const std::string& takes) {
    return "[positions." + position + "]\nrequired = true\ntakes = \"" + takes + "\"\n";
}

std::string planOf(const std::string& sections) {
    return timed(planned(logWith(book(sections))));
}

// Used, to be reprocessed.
std::string used(const std::string& position, const std::string& takes,
                 const std::string& attended) {
    return "[positions." + position + "]\nreuse = \"reusable\"\nreprocess_takes = \"" + takes +
           "\"\nreprocess_attended = \"" + attended + "\"\n";
}

LogBuilder logOfUsed(const std::string& sections, const Texts& positions) {
    LogBuilder log = logWith(book(sections));
    for (const auto& position : positions) log.on(device).fit(position);
    log.on(device).soil();
    return log;
}

}  // namespace

TEST_CASE("tasks take their time", "[unit]") {
    CHECK(planOf("[positions.circuit]\nrequired = true\n" + check("leak", "PT1M15S")) ==
          "fit circuit 0-60, check leak 60-135");
    CHECK(planOf(missing("circuit", "PT7M")) == "fit circuit 0-420");
    // Half an hour, all of it attended, where nothing else is said.
    CHECK(timed(planned(logOfUsed("[positions.valve]\nreuse = \"reusable\"\n" +
                                      check("leak", "PT1M"),
                                  {"valve"}))) == "reprocess valve 0-1800, check leak 1800-1860");
}

TEST_CASE("the person does one thing at a time, and may leave what needs no one", "[unit]") {
    const auto plan = planned(logOfUsed(used("a", "PT20M", "PT5M") + used("b", "PT30M", "PT2M") +
                                            check("leak", "PT2M"),
                                        {"a", "b"}));
    CHECK(timed(plan) == "reprocess b 0-1800, reprocess a 120-1320, check leak 420-540");
    CHECK(offset(plan, plan.tasks[0].attended) == "120");
    CHECK(offset(plan, plan.tasks[1].attended) == "420");
    CHECK(offset(plan, plan.tasks[2].attended) == "540");
    CHECK(offset(plan, *plan.readyAt) == "1800");
}

TEST_CASE("while a check is under way", "[unit]") {
    const std::string soak = check("soak", "PT10M", "attended = \"PT1M\"");
    SECTION("no other check is") {
        CHECK(planOf(soak + check("leak", "PT2M")) == "check leak 0-120, check soak 120-720");
        CHECK(planOf(soak + check("leak", "PT2M", "after = [\"soak\"]")) ==
              "check soak 0-600, check leak 600-720");
    }
    SECTION("nothing is fitted") {
        const std::string closing = "attended = \"PT1M\"\nnot_with = [{ position = \"hme\" }]";
        CHECK(planOf(missing("hme", "PT1M") + check("soak", "PT10M", closing)) ==
              "check soak 0-600, fit hme 600-660");
    }
    SECTION("nothing is taken out") {
        LogBuilder log = logOfUsed(used("valve", "PT10M", "PT1M") +
                                       check("leak", "PT1M", "not_with = [{ position = \"valve\" "
                                                             "}]") +
                                       check("soak", "PT15M", "attended = \"PT1M\""),
                                   {"valve"});
        CHECK(timed(planned(log)) == "check soak 0-900, reprocess valve 60-660, remove valve "
                                     "900-900, check leak 900-960, fit valve 960-1020");
    }
    SECTION("a reprocess may begin") {
        LogBuilder log = logOfUsed(used("valve", "PT9M", "PT2M") + soak, {"valve"});
        CHECK(timed(planned(log)) == "check soak 0-600, reprocess valve 60-600");
    }
}

TEST_CASE("a check waits for what stands as it is", "[unit]") {
    const std::string wait = "not_before = [{ event = \"fit cell\", wait = \"PT30M\" }]";
    LogBuilder log =
        logWith(book("[positions.cell]\n[positions.other]\n" + check("cal", "PT1M", wait)));
    CHECK(timed(planned(log)) == "check cal 0-60");
    log.on(device).at("09:40").fit("cell");
    log.on(device).at("09:59").fit("other");
    const auto plan = planned(log);
    CHECK(timed(plan) == "check cal 600-660");
    CHECK(plan.tasks[0].notBefore == when("10:10"));
    const auto later = planned(log, "10:10");
    CHECK(timed(later) == "check cal 0-60");
    CHECK_FALSE(later.tasks[0].notBefore);
}

TEST_CASE("a check waits from the finish of a planned fit", "[unit]") {
    const std::string wait = "not_before = [{ event = \"fit *\", wait = \"PT10M\" }]";
    LogBuilder log = logWith(book(missing("cell", "PT5M") + "[positions.other]\n" +
                                  check("alarm", "PT3M") + check("cal", "PT1M", wait)));
    CHECK(timed(planned(log)) == "fit cell 0-300, check alarm 300-480, check cal 900-960");
    CHECK(planned(log).tasks[2].notBefore == when("10:15"));
    // Two waits at once: the later one counts.
    log.on(device).at("09:59").fit("other");
    CHECK(timed(planned(log)) == "fit cell 0-300, check alarm 300-480, check cal 900-960");
    log.on(device).at("10:05").fit("other");
    CHECK(timed(planned(log, "10:05")) == "fit cell 0-300, check alarm 300-480, check cal 900-960");
    LogBuilder quick = logWith(book(missing("cell", "PT1S") + "[positions.other]\n" +
                                    check("cal", "PT1M", wait)));
    quick.on(device).at("09:59:59").fit("other");
    CHECK(timed(planned(quick)) == "fit cell 0-1, check cal 601-661");
}

TEST_CASE("a position that stands removed asks for no wait", "[unit]") {
    const std::string wait = "not_before = [{ event = \"fit hme\", wait = \"PT30M\" }]\n";
    SECTION("before its closing fit") {
        LogBuilder log = logWith(
            book("[positions.hme]\n" +
                 check("leak", "PT2M", wait + "not_with = [{ position = \"hme\" }]")));
        log.on(device).at("09:59").fit("hme");
        CHECK(timed(planned(log)) == "remove hme 0-0, check leak 0-120, fit hme 120-180");
    }
    SECTION("taken out for a choice") {
        LogBuilder log = logWith(book("[positions.hme]\n[positions.humidifier]\n[choices.moisture]"
                                      "\npositions = [\"humidifier\", \"hme\"]\n" +
                                      check("leak", "PT2M", wait)));
        log.on(device).at("09:59").fit("hme");
        log.on(device).at("09:59").fit("humidifier");
        CHECK(timed(planned(log)) == "remove hme 0-0, check leak 0-120");
    }
    SECTION("so that a check waits only if it comes after the closing fit") {
        LogBuilder log = logWith(
            book("[positions.hme]\n" + check("cal", "PT2M", wait) +
                 check("leak", "PT2M", "not_with = [{ position = \"hme\" }]")));
        log.on(device).at("09:59").fit("hme");
        CHECK(timed(planned(log)) ==
              "remove hme 0-0, check cal 0-120, check leak 120-240, fit hme 240-300");
    }
}

TEST_CASE("a check waits for the device to warm up", "[unit]") {
    const std::string wait = "not_before = [{ event = \"power_on\", wait = \"PT2M\" }]";
    const std::string alarm =
        check("alarm", "PT1M", "voided_by = [{ event = \"power_on\" }]") +
        check("cal", "PT1M", wait);
    LogBuilder log = logWith(book(alarm));
    log.on(device).pass("alarm");
    SECTION("from the start where it is unknown whether it is on, and the event counts") {
        CHECK(timed(planned(log)) == "check alarm 0-60, check cal 120-180");
        CHECK(planned(log).tasks[1].notBefore == when("10:02"));
    }
    SECTION("likewise where it is off") {
        log.on(device).power(true);
        log.on(device).pass("alarm");
        log.on(device).power(false);
        CHECK(timed(planned(log)) == "check alarm 0-60, check cal 120-180");
    }
    SECTION("from when it was switched on") {
        log.on(device).at("09:59").power(true);
        log.on(device).at("09:59").pass("alarm");
        CHECK(timed(planned(log)) == "check cal 60-120");
        CHECK(timed(planned(log, "10:01")) == "check cal 0-60");
    }
    SECTION("but it is not switched on for no check") {
        log.on(device).at("09:58").power(true);
        log.on(device).pass("alarm");
        log.on(device).at("10:01").stating("warmed_up").pass("cal");
        log.on(device).power(false);
        CHECK(tasks(planned(log, "10:30")).empty());
    }
}

TEST_CASE("the group comes before all else", "[unit]") {
    LogBuilder log;
    log.adopt(book(missing("circuit", "PT1M") + check("leak", "PT2M", "not_with = [{ position = "
                                                                      "\"hme\" }]") +
                   "[positions.hme]\n"));
    log.on(device).enrol({"adult", "pediatric"});
    log.on(device).fit("hme");
    CHECK(timed(plannedFor("adult", log)) == "group adult 0-0, remove hme 0-0, fit circuit 0-60, "
                                             "check leak 60-180, fit hme 180-240");
}

TEST_CASE("among the best orders the first counts", "[unit]") {
    SECTION("by kind: removals, reprocesses, fits, checks") {
        LogBuilder log = logWith(
            book(missing("a", "PT1M") + used("b", "PT1M", "PT1M") + "[positions.z]\n"
                 "[positions.y]\n[choices.either]\npositions = [\"y\", \"z\"]\n" +
                 check("leak", "PT1M")));
        log.on(device).fit("b");
        log.on(device).soil();
        log.on(device).fit("y");
        log.on(device).fit("z");
        CHECK(timed(planned(log)) ==
              "remove z 0-0, reprocess b 0-60, fit a 60-120, check leak 120-180");
    }
    SECTION("by name") {
        CHECK(planOf(check("b", "PT1M") + check("a", "PT3M") + check("c", "PT1M")) ==
              "check a 0-180, check b 180-240, check c 240-300");
    }
    SECTION("by start before that") {
        // `late` cannot start at once; what fills the time is in order of name.
        CHECK(planOf(check("early", "PT1M") + check("filler", "PT1M") +
                     check("a_late", "PT1M",
                           "not_before = [{ event = \"power_on\", wait = \"PT1M\" }]")) ==
              "check early 0-60, check a_late 60-120, check filler 120-180");
    }
    SECTION("but never at the cost of the finish") {
        CHECK(timed(planned(logOfUsed(used("z", "PT20M", "PT1M") + used("a", "PT2M", "PT2M"),
                                      {"a", "z"}))) ==
              "reprocess z 0-1200, reprocess a 60-180");
    }
    SECTION("also where one that sorts first has to wait for the finish") {
        // Done first, the short check would put off the wait that decides.
        CHECK(planOf(missing("cell", "PT5M") + missing("a", "PT2M") +
                     check("cal", "PT1M",
                           "not_before = [{ event = \"fit cell\", wait = \"PT20M\" }]")) ==
              "fit cell 0-300, fit a 300-420, check cal 1500-1560");
    }
}
