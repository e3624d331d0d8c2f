// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which tasks a plan finds: for parts, notices, choices, checks, and what they call for in turn.
#include "rules/plan_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

// A log with one position of these rules, and what is done to it.
LogBuilder logOfCircuit(const std::string& rules, const std::string& more = "") {
    return logWith(book("[positions.circuit]\n" + rules + "\n" + more));
}

const std::string leakVoidedByFit =
    "[checks.leak]\ntakes = \"PT2M\"\nvoided_by = [{ event = \"fit circuit\" }]\n";

}  // namespace

TEST_CASE("a plan with nothing to do", "[unit]") {
    LogBuilder log = logOfCircuit("required = true");
    log.on(device).fit("circuit");
    const auto plan = planned(log);
    CHECK(plan.device == device);
    CHECK(plan.group == "adult");
    CHECK(plan.from == when("10:00"));
    CHECK(plan.readyAt == when("10:00"));
    CHECK(tasks(plan).empty());
    CHECK(blockers(plan).empty());
    CHECK(runsOut(plan).empty());
    CHECK(plan.exact);
    CHECK(plan.bound == when("10:00"));
}

TEST_CASE("a plan carries out the checks that block", "[unit]") {
    const auto planOf = [](const std::string& rules, const std::string& outcome) {
        LogBuilder log = logWith(bookOfLeak(rules));
        if (!outcome.empty()) log.on(device).check("leak", outcome);
        return tasks(planned(log));
    };
    const std::string lapses = "valid_for = \"PT1H\"";
    CHECK(planOf("", "") == "check leak");
    CHECK(planOf("", "pass").empty());
    CHECK(planOf("", "fail") == "check leak");
    CHECK(planOf(lapses, "pass") == "check leak");
    CHECK(planOf("blocks = false", "").empty());
    CHECK(planOf("blocks = \"start\"", "").empty());
    CHECK(planOf("blocks = false\n" + lapses, "pass").empty());
    CHECK(planOf("blocks = false", "fail") == "check leak");
    CHECK(planOf("blocks = \"start\"", "fail") == "check leak");
    CHECK(planOf("blocks = false\nfail_blocks = false", "fail").empty());
    CHECK(planOf("applies_when = { \"feature.co2\" = true }", "").empty());
}

TEST_CASE("a plan fits a new part", "[unit]") {
    SECTION("into a required position that is empty") {
        CHECK(tasks(planned(logOfCircuit("required = true"))) == "fit circuit");
        CHECK(tasks(planned(logOfCircuit(""))).empty());
        const auto when = "required_when = { \"feature.co2\" = true }";
        CHECK(tasks(planned(logOfCircuit(when))).empty());
        const auto feature = book("[positions.circuit]\n" + std::string(when) + "\n");
        CHECK(tasks(planned(logWith(feature, {"co2"}))) == "fit circuit");
    }
    SECTION("for one that does not suit the group") {
        LogBuilder log = logOfCircuit("match_group = true");
        log.on(device).fit("circuit", {{"groups", list({"neonatal"})}});
        CHECK(tasks(planned(log)) == "fit circuit");
        log.on(device).fit("circuit", {{"groups", list({"neonatal", "adult"})}});
        CHECK(tasks(planned(log)).empty());
    }
    SECTION("for one that has expired") {
        LogBuilder log = logOfCircuit("");
        log.on(device).fit("circuit", {{"expires", "2026-03-01"}});
        CHECK(tasks(planned(log)) == "fit circuit");
    }
    SECTION("for one to be changed") {
        LogBuilder log = logOfCircuit("change_after = \"PT1H\"");
        log.on(device).at("09:00:01").fit("circuit");
        CHECK(tasks(planned(log)).empty());
        CHECK(tasks(planned(log, "10:00:01")) == "fit circuit");
    }
    SECTION("for one to be changed after its use") {
        LogBuilder log = logOfCircuit("change_after_use = \"PT1H\"");
        log.on(device).fit("circuit");
        log.on(device).at("09:00").useStart();
        log.on(device).at("09:30").useEnd();
        CHECK(tasks(planned(log, "09:59")).empty());
        CHECK(tasks(planned(log)) == "fit circuit");
    }
    SECTION("for one that is spent") {
        LogBuilder log = logOfCircuit("reuse = \"single_patient\"");
        log.on(device).fit("circuit");
        log.on(device).soil();
        CHECK(tasks(planned(log)) == "fit circuit");
    }
    SECTION("for one that is worn out") {
        LogBuilder log = logOfCircuit("reuse = \"reusable\"\nmax_reprocess = 1");
        log.on(device).fit("circuit");
        log.on(device).reprocess({"circuit"});
        CHECK(tasks(planned(log)).empty());
        log.on(device).reprocess({"circuit"});
        CHECK(tasks(planned(log)) == "fit circuit");
    }
    SECTION("and a waived finding needs none") {
        LogBuilder log = logOfCircuit("change_after = \"PT1H\"");
        log.on(device).fit("circuit");
        log.on(device).at("09:30").waive("change_due", "circuit", "11:00");
        CHECK(tasks(planned(log)).empty());
        CHECK(tasks(planned(log, "11:00")) == "fit circuit");
    }
}

TEST_CASE("a used part is reprocessed or exchanged", "[unit]") {
    const auto planOf = [](const std::string& rules) {
        LogBuilder log = logOfCircuit("reuse = \"reusable\"\n" + rules);
        log.on(device).fit("circuit");
        log.on(device).soil();
        return tasks(planned(log));
    };
    CHECK(planOf("") == "reprocess circuit");
    CHECK(planOf("spare = true") == "fit circuit");
    // One of the two, and the fit wins, also where only the reprocessing calls for it.
    CHECK(planOf("change_after = \"PT1H\"") == "fit circuit");
    CHECK(planOf("max_reprocess = 0") == "fit circuit");
    CHECK(planOf("max_reprocess = 1") == "reprocess circuit");
}

TEST_CASE("a plan fits another part for a notice", "[unit]") {
    const json::Object part{{"lot", "L7"}, {"model", "Rowan"}};
    const auto planOf = [&part](const json::Object& match, const std::string& action) {
        LogBuilder log = logOfCircuit("");
        log.on(device).fit("circuit", part);
        log.department().notice("n1", match, action);
        return planned(log);
    };
    const json::Object byLot{{"lots", list({"L7"})}};
    CHECK(tasks(planOf(byLot, "stop_use")) == "fit circuit");
    CHECK(blockers(planOf(byLot, "stop_use")).empty());
    CHECK(tasks(planOf(byLot, "inspect")).empty());
    CHECK(planOf(byLot, "inspect").readyAt == when("10:00"));
    // The new part is of the same model.
    const auto byModel = planOf({{"part_models", list({"Rowan"})}}, "stop_use");
    CHECK(tasks(byModel).empty());
    CHECK(blockers(byModel) == "notice n1");
    CHECK_FALSE(byModel.readyAt);
    CHECK(blockers(planOf({{"devices", list({device})}}, "stop_use")) == "notice n1");
}

TEST_CASE("a plan fits what a check to be carried out needs", "[unit]") {
    const std::string rules = "[checks.cal]\ntakes = \"PT1M\"\nneeds_match = [\"circuit\"]\n";
    LogBuilder log = logOfCircuit("", rules);
    CHECK(tasks(planned(log)) == "fit circuit, check cal");
    log.on(device).fit("circuit");
    CHECK(tasks(planned(log)) == "fit circuit, check cal");
    log.on(device).fit("circuit", {{"groups", list({"adult"})}});
    CHECK(tasks(planned(log)) == "check cal");
    log.on(device).pass("cal");
    log.on(device).remove("circuit");
    CHECK(tasks(planned(log)).empty());
}

TEST_CASE("a plan makes a choice", "[unit]") {
    const std::string rules =
        "[positions.hme]\nreuse = \"single_patient\"\n[positions.humidifier]\n"
        "[choices.moisture]\npositions = [\"humidifier\", \"circuit\", \"hme\"]\n";
    LogBuilder log = logOfCircuit("", rules);
    SECTION("of none the first") {
        CHECK(timed(planned(log)) == "fit humidifier 0-60");
    }
    SECTION("of one that is there nothing") {
        log.on(device).fit("hme");
        CHECK(tasks(planned(log)).empty());
    }
    SECTION("of several the first that is there; nothing else for the others") {
        log.on(device).fit("circuit");
        log.on(device).fit("hme");
        log.on(device).soil();
        CHECK(timed(planned(log)) == "remove hme 0-0");
        log.on(device).fit("humidifier");
        CHECK(tasks(planned(log)) == "remove circuit, remove hme");
    }
    SECTION("where a used one stays another is fitted") {
        log.on(device).fit("hme");
        log.on(device).soil();
        CHECK(tasks(planned(log)) == "fit hme");
    }
}

TEST_CASE("a plan selects the group first", "[unit]") {
    const std::string voided = "voided_by = [{ event = \"group\" }]";
    LogBuilder log;
    log.adopt(bookOfLeak(voided, "[checks.alarm]\ntakes = \"PT1M\"\n"));
    log.on(device).enrol({"adult", "pediatric"});
    SECTION("if another one is selected") {
        log.on(device).group("adult");
        log.on(device).pass("leak");
        log.on(device).pass("alarm");
        CHECK(tasks(planned(log)).empty());
        CHECK(tasks(plannedFor("adult", log)).empty());
        const auto plan = plannedFor("pediatric", log);
        CHECK(plan.group == "pediatric");
        CHECK(timed(plan) == "group pediatric 0-0, check leak 0-120");
    }
    SECTION("if none is") {
        CHECK(blockers(planned(log)) == "group_unset");
        CHECK(tasks(plannedFor("adult", log)) == "group adult, check alarm, check leak");
    }
}

TEST_CASE("a plan carries out what its checks come after", "[unit]") {
    const std::string rules =
        "[checks.first]\ntakes = \"PT1M\"\nblocks = false\nfail_blocks = false\n"
        "[checks.second]\ntakes = \"PT1M\"\nblocks = \"start\"\nafter = [\"first\"]\n"
        "[checks.third]\ntakes = \"PT1M\"\nafter = [\"second\", \"never\"]\n"
        "[checks.never]\ntakes = \"PT1M\"\napplies_when = { \"feature.co2\" = true }\n";
    LogBuilder log = logWith(book(rules));
    CHECK(tasks(planned(log)) == "check first, check second, check third");
    log.on(device).pass("first");
    CHECK(tasks(planned(log)) == "check second, check third");
    log.on(device).pass("second");
    CHECK(tasks(planned(log)) == "check third");
    log.on(device).fail("first");
    CHECK(tasks(planned(log)) == "check third");
    log.on(device).pass("third");
    CHECK(tasks(planned(log)).empty());
}

TEST_CASE("a plan takes out what is in a check's way and puts it back", "[unit]") {
    const std::string rules =
        "[positions.hme]\nreuse = \"single_patient\"\ntakes = \"PT30S\"\n[checks.leak]\n"
        "takes = \"PT2M\"\nnot_with = [{ position = \"hme\", when = { \"circuit.layout\" = "
        "\"coaxial\" } }]\n";
    const auto planOf = [&rules](const std::string& layout, bool used) {
        LogBuilder log = logOfCircuit("", rules);
        log.on(device).fit("circuit", {{"layout", layout}});
        log.on(device).fit("hme");
        if (used) log.on(device).soil();
        return planned(log);
    };
    const std::string around = "remove hme 0-0, check leak 0-120, fit hme 120-150";
    const auto sameAgain = planOf("coaxial", false);
    CHECK(timed(sameAgain) == around);
    CHECK(sameAgain.tasks.back().closing);
    CHECK(sameAgain.tasks.back().samePart);
    const auto anew = planOf("coaxial", true);
    CHECK(timed(anew) == around);
    CHECK(anew.tasks.back().closing);
    CHECK_FALSE(anew.tasks.back().samePart);
    CHECK(timed(planOf("twin", false)) == "check leak 0-120");
    CHECK(timed(planOf("twin", true)) == "fit hme 0-30, check leak 30-150");
}

TEST_CASE("an empty position in a check's way is filled after it", "[unit]") {
    const std::string rules = "[checks.leak]\ntakes = \"PT2M\"\nnot_with = "
                              "[{ position = \"circuit\" }]\n";
    const auto plan = planned(logOfCircuit("required = true", rules));
    CHECK(timed(plan) == "check leak 0-120, fit circuit 120-180");
    CHECK(plan.tasks.back().closing);
    CHECK_FALSE(plan.tasks.back().samePart);
    CHECK(timed(planned(logOfCircuit("", rules))) == "check leak 0-120");
}

TEST_CASE("a task calls for further tasks", "[unit]") {
    SECTION("a part that another one needs") {
        const std::string rules =
            "[positions.sensor]\nrequired_when = { \"circuit.fitted\" = true }\n";
        CHECK(tasks(planned(logOfCircuit("required = true", rules))) == "fit circuit, fit sensor");
    }
    SECTION("a check that is voided") {
        LogBuilder log = logOfCircuit("required = true", leakVoidedByFit);
        log.on(device).pass("leak");
        CHECK(timed(planned(log)) == "fit circuit 0-60, check leak 60-180");
    }
    SECTION("a check that begins to apply") {
        LogBuilder log = logOfCircuit("required = true",
                                      "[checks.leak]\ntakes = \"PT2M\"\n"
                                      "applies_when = { \"circuit.fitted\" = true }\n");
        CHECK(tasks(planned(log)) == "fit circuit, check leak");
    }
    SECTION("a check that the closing fit voids") {
        LogBuilder log = logOfCircuit(
            "", "[checks.cal]\ntakes = \"PT1M\"\nvoided_by = [{ event = \"fit circuit\" }]\n"
                "[checks.leak]\ntakes = \"PT2M\"\nnot_with = [{ position = \"circuit\" }]\n");
        log.on(device).fit("circuit");
        log.on(device).pass("cal");
        CHECK(timed(planned(log)) ==
              "remove circuit 0-0, check leak 0-120, fit circuit 120-180, check cal 180-240");
    }
    SECTION("and where a check falls due again no waiver covers it") {
        LogBuilder log = logOfCircuit("required = true", leakVoidedByFit + "waivable = true\n");
        log.on(device).at("09:00").waive("due", "leak", "11:00");
        CHECK(tasks(planned(log)) == "fit circuit, check leak");
        log.on(device).at("09:10").fit("circuit");
        log.on(device).at("09:20").waive("due", "leak", "11:00");
        CHECK(tasks(planned(log)).empty());
    }
}

TEST_CASE("a new part is like the last one there but for what is its own", "[unit]") {
    const auto planOf = [](const std::string& check, const json::Object& part) {
        LogBuilder log = logOfCircuit("required = true\nmatch_group = true",
                                      "[checks.leak]\ntakes = \"PT2M\"\n" + check + "\n");
        log.on(device).fit("circuit", part);
        log.on(device).pass("leak");
        log.on(device).remove("circuit");
        return tasks(planned(log));
    };
    const json::Object part{{"serial", "S1"},   {"lot", "L1"},         {"expires", "2026-03-01"},
                            {"layout", "twin"}, {"reuse", "reusable"}, {"groups", list({"adult"})}};
    const auto voidedIfDifferent = [](const std::string& attribute) {
        return "voided_by = [{ event = \"fit circuit\", only = \"different " + attribute + "\" }]";
    };
    // Kept: it is no different, so nothing is voided. Else, or never stated: the check is.
    CHECK(planOf(voidedIfDifferent("layout"), part) == "fit circuit");
    CHECK(planOf(voidedIfDifferent("reuse"), part) == "fit circuit");
    CHECK(planOf(voidedIfDifferent("lot"), part) == "fit circuit, check leak");
    CHECK(planOf(voidedIfDifferent("serial"), part) == "fit circuit, check leak");
    CHECK(planOf(voidedIfDifferent("expires"), part) == "fit circuit, check leak");
    CHECK(planOf(voidedIfDifferent("colour"), part) == "fit circuit, check leak");
    const std::string ifNew = "voided_by = [{ event = \"fit circuit\", only = \"new_part\" }]";
    CHECK(planOf(ifNew, part) == "fit circuit, check leak");
    // It suits the group, and keeps the others only if they contained it.
    const auto ifForAdults = [](const std::string& groups) {
        return "voided_by = [{ event = \"fit circuit\", when = { \"circuit.groups\" = " + groups +
               " } }]";
    };
    const json::Object forAll{{"groups", list({"adult", "pediatric"})}};
    const json::Object forOthers{{"groups", list({"neonatal", "pediatric"})}};
    CHECK(planOf(ifForAdults("\"adult\""), forOthers) == "fit circuit, check leak");
    CHECK(planOf(ifForAdults("\"pediatric\""), forOthers) == "fit circuit");
    CHECK(planOf(ifForAdults("\"pediatric\""), forAll) == "fit circuit, check leak");
    CHECK(planOf(ifForAdults("\"adult\""), {}) == "fit circuit, check leak");
}

TEST_CASE("the same part again is no new part", "[unit]") {
    const auto planOf = [](const std::string& serial) {
        LogBuilder log = logOfCircuit(
            "", "[checks.cal]\ntakes = \"PT1M\"\nvoided_by = [{ event = \"fit circuit\", only = "
                "\"new_part\" }]\n[checks.leak]\ntakes = \"PT2M\"\nnot_with = [{ position = "
                "\"circuit\" }]\n");
        log.on(device).fit("circuit", {{"serial", serial}});
        log.on(device).pass("cal");
        return tasks(planned(log));
    };
    CHECK(planOf("S1") == "remove circuit, check leak, fit circuit");
    CHECK(planOf("") == "remove circuit, check leak, fit circuit, check cal");
}
