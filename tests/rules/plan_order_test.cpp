// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a plan finishes before what. A long wait after a closing fit makes it worth while to begin
// with the leak test, so that a ten-minute fit waits unless the leak test comes after it.
#include "rules/plan_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

// `leak` has the humidifier out; `warm` waits twenty minutes for it to be in again. The valve is
// missing. What is said of the leak test may tie it to the valve.
std::string bookOfWait(const std::string& leak, const std::string& more = "") {
    return book(
        "[positions.humidifier]\n"
        "[positions.valve]\nrequired = true\ntakes = \"PT10M\"\n"
        "[checks.warm]\ntakes = \"PT1M\"\nneeds_match = [\"humidifier\"]\n"
        "not_before = [{ event = \"fit humidifier\", wait = \"PT20M\" }]\n" +
        more + "[checks.leak]\ntakes = \"PT2M\"\n" + leak + "\n");
}

const std::string notWithHumidifier = "not_with = [{ position = \"humidifier\" }]\n";

// A part in the humidifier's position that suits.
void fitHumidifier(LogBuilder& log) {
    log.on(device).fit("humidifier", {{"groups", list({"adult"})}, {"serial", "H1"}});
}

std::string planOf(const std::string& rulebook) {
    LogBuilder log = logWith(rulebook);
    fitHumidifier(log);
    return timed(planned(log));
}

const std::string leakFirst =
    "remove humidifier 0-0, check leak 0-120, fit humidifier 120-180, fit valve 180-780, "
    "check warm 1380-1440";
const std::string valveFirst =
    "remove humidifier 0-0, fit valve 0-600, check leak 600-720, fit humidifier 720-780, "
    "check warm 1980-2040";

// A used part that takes long to reprocess, with most of that unattended.
LogBuilder logOfReprocessing(const std::string& leak, const std::string& more = "") {
    LogBuilder log = logWith(
        book("[positions.valve]\nreuse = \"reusable\"\nreprocess_takes = \"PT30M\"\n"
             "reprocess_attended = \"PT1M\"\n" +
             more + "[checks.leak]\ntakes = \"PT2M\"\n" + leak + "\n"));
    log.on(device).fit("valve", {{"groups", list({"adult"})}});
    log.on(device).soil();
    return log;
}

}  // namespace

TEST_CASE("a fit that means nothing to a check may follow it", "[unit]") {
    CHECK(planOf(bookOfWait(notWithHumidifier)) == leakFirst);
}

TEST_CASE("a fit comes before a check", "[unit]") {
    const auto expectValveFirst = [](const std::string& leak) {
        INFO(leak);
        CHECK(planOf(bookOfWait(leak)) == valveFirst);
    };
    const auto expectLeakFirst = [](const std::string& leak) {
        INFO(leak);
        CHECK(planOf(bookOfWait(leak)) == leakFirst);
    };
    SECTION("that it voids") {
        expectValveFirst(notWithHumidifier + "voided_by = [{ event = \"fit valve\" }]");
        expectValveFirst(notWithHumidifier + "voided_by = [{ event = \"change valve\" }]");
        expectValveFirst(notWithHumidifier + "voided_by = [{ event = \"fit *\", only = "
                                             "\"different serial\" }]");
        expectLeakFirst(notWithHumidifier + "voided_by = [{ event = \"remove valve\" }]");
        expectLeakFirst(notWithHumidifier + "voided_by = [{ event = \"reprocess valve\" }]");
    }
    SECTION("that it voids on conditions, read with all done but the closing fits") {
        const auto voided = [](const std::string& condition) {
            return notWithHumidifier + "voided_by = [{ event = \"fit valve\", " + condition +
                   " }]";
        };
        expectValveFirst(voided("when = { \"valve.fitted\" = true }"));
        expectLeakFirst(voided("when = { \"valve.fitted\" = false }"));
        expectValveFirst(voided("when = { \"humidifier.fitted\" = false }"));
        expectLeakFirst(voided("when = { \"humidifier.fitted\" = true }"));
        expectLeakFirst(voided("unless = { \"valve.fitted\" = true }"));
        expectValveFirst(voided("unless = { \"humidifier.fitted\" = true }"));
        expectValveFirst(voided("unless = { \"valve.colour\" = \"blue\" }"));
        expectValveFirst(voided("when = { \"valve.colour\" = \"blue\" }"));
    }
    SECTION("that needs the part to match") {
        expectValveFirst(notWithHumidifier + "needs_match = [\"valve\"]");
    }
    SECTION("that waits for it") {
        expectValveFirst(notWithHumidifier + "not_before = [{ event = \"fit valve\", wait = "
                                             "\"PT0S\" }]");
    }
    SECTION("that looks at the part") {
        expectValveFirst(notWithHumidifier + "applies_when = { \"valve.fitted\" = true }");
        expectValveFirst(notWithHumidifier + "applies_when = { \"valve.colour\" = \"blue\" }");
        expectLeakFirst(notWithHumidifier + "applies_when = { \"feature.valve\" = false }");
        expectValveFirst("not_with = [{ position = \"humidifier\", when = "
                         "{ \"valve.colour\" = \"blue\" } }]");
    }
}

TEST_CASE("a fit comes before a check through another check", "[unit]") {
    const std::string alarm = "[checks.alarm]\ntakes = \"PT1M\"\nvoided_by = "
                              "[{ event = \"fit valve\" }]\n";
    CHECK(planOf(bookOfWait(notWithHumidifier + "after = [\"alarm\"]", alarm)) ==
          "remove humidifier 0-0, fit valve 0-600, check alarm 600-660, check leak 660-780, "
          "fit humidifier 780-840, check warm 2040-2100");
}

TEST_CASE("a closing fit goes in after the checks that have it out", "[unit]") {
    SECTION("which come after its removal") {
        CHECK(planOf(book("[positions.humidifier]\n[checks.leak]\ntakes = \"PT2M\"\n" +
                          notWithHumidifier)) ==
              "remove humidifier 0-0, check leak 0-120, fit humidifier 120-180");
    }
    SECTION("if their condition holds with all in place") {
        const auto planWhen = [](const std::string& condition) {
            return planOf(book("[positions.humidifier]\n[checks.alarm]\ntakes = \"PT1M\"\n" +
                               notWithHumidifier +
                               "[checks.leak]\ntakes = \"PT2M\"\nnot_with = [{ position = "
                               "\"humidifier\", when = { " +
                               condition + " } }]\nvoided_by = [{ event = \"fit humidifier\" }]"));
        };
        CHECK(planWhen("\"humidifier.fitted\" = false") ==
              "remove humidifier 0-0, check alarm 0-60, fit humidifier 60-120, check leak 120-240");
        CHECK(planWhen("\"humidifier.fitted\" = true").empty());
    }
    SECTION("and is not out of the way of others") {
        const auto plan = planOf(
            book("[positions.humidifier]\n[checks.leak]\ntakes = \"PT2M\"\n" + notWithHumidifier +
                 "[checks.alarm]\ntakes = \"PT2M\"\nvoided_by = [{ event = \"remove humidifier\" }]"
                 "\n"));
        CHECK(plan == "remove humidifier 0-0, check alarm 0-120, check leak 120-240, "
                      "fit humidifier 240-300");
    }
}

TEST_CASE("a check comes after a closing fit", "[unit]") {
    const auto planWith = [](const std::string& alarm) {
        return planOf(book("[positions.humidifier]\n[positions.valve]\n[checks.leak]\ntakes = "
                           "\"PT2M\"\n" +
                           notWithHumidifier + "[checks.alarm]\ntakes = \"PT1M\"\n" + alarm +
                           "\n"));
    };
    const std::string after =
        "remove humidifier 0-0, check leak 0-120, fit humidifier 120-180, check alarm 180-240";
    const std::string before =
        "remove humidifier 0-0, check alarm 0-60, check leak 60-180, fit humidifier 180-240";
    CHECK(planWith("") == before);
    SECTION("that voids it") {
        CHECK(planWith("voided_by = [{ event = \"fit humidifier\" }]") == after);
        CHECK(planWith("voided_by = [{ event = \"change *\" }]") == after);
        CHECK(planWith("voided_by = [{ event = \"fit valve\" }]") == before);
    }
    SECTION("that voids it on conditions, read with the closing fits done") {
        CHECK(planWith("voided_by = [{ event = \"fit humidifier\", when = "
                       "{ \"humidifier.fitted\" = true } }]") == after);
        CHECK(planWith("voided_by = [{ event = \"fit humidifier\", unless = "
                       "{ \"humidifier.fitted\" = true } }]") == before);
    }
    SECTION("that it needs to match") {
        CHECK(planWith("needs_match = [\"humidifier\"]") == after);
    }
    SECTION("that decides whether it applies") {
        CHECK(planWith("applies_when = { \"humidifier.fitted\" = true }") == after);
    }
    SECTION("that decides what else is in its way") {
        CHECK(planWith("not_with = [{ position = \"valve\", when = "
                       "{ \"humidifier.kind\" = \"pass_over\" } }]") == after);
    }
    SECTION("where another check comes after it") {
        CHECK(planWith("needs_match = [\"humidifier\"]\n[checks.battery]\ntakes = \"PT1M\"\n"
                       "after = [\"alarm\"]") == after + ", check battery 240-300");
    }
}

TEST_CASE("a reprocess is finished before the checks that it matters to", "[unit]") {
    const std::string meanwhile = "reprocess valve 0-1800, check leak 60-180";
    const std::string afterwards = "reprocess valve 0-1800, check leak 1800-1920";
    const auto timedWith = [](const std::string& leak) {
        return timed(planned(logOfReprocessing(leak)));
    };
    CHECK(timedWith("") == meanwhile);
    CHECK(timedWith("voided_by = [{ event = \"fit valve\" }]") == meanwhile);
    CHECK(timedWith("voided_by = [{ event = \"reprocess valve\" }]") == afterwards);
    CHECK(timedWith("voided_by = [{ event = \"reprocess *\" }]") == afterwards);
    CHECK(timedWith("needs_match = [\"valve\"]") == afterwards);
    CHECK(timedWith("not_before = [{ event = \"fit valve\", wait = \"PT1S\" }]") == afterwards);
    CHECK(timedWith("applies_when = { \"valve.fitted\" = true }") == afterwards);
}

TEST_CASE("a reprocess is finished before its part is taken out", "[unit]") {
    CHECK(timed(planned(logOfReprocessing("not_with = [{ position = \"valve\" }]"))) ==
          "reprocess valve 0-1800, remove valve 1800-1800, check leak 1800-1920, "
          "fit valve 1920-1980");
}

TEST_CASE("a removal for a choice comes before the checks that it matters to", "[unit]") {
    const auto planWith = [](const std::string& leak) {
        LogBuilder log = logWith(
            book("[positions.circuit]\n[positions.hme]\n[choices.moisture]\npositions = "
                 "[\"circuit\", \"hme\"]\n[checks.leak]\ntakes = \"PT2M\"\n" + leak + "\n"));
        log.on(device).fit("circuit");
        log.on(device).fit("hme");
        log.on(device).pass("leak");
        return timed(planned(log));
    };
    CHECK(planWith("voided_by = [{ event = \"remove hme\" }]") ==
          "remove hme 0-0, check leak 0-120");
    CHECK(planWith("") == "remove hme 0-0");
}

TEST_CASE("checks come after one another", "[unit]") {
    LogBuilder log = logWith(
        book("[checks.a]\ntakes = \"PT1M\"\nafter = [\"b\"]\n[checks.b]\ntakes = \"PT1M\"\n"
             "attended = \"PT10S\"\nafter = [\"c\"]\n[checks.c]\ntakes = \"PT1M\"\n"));
    CHECK(timed(planned(log)) == "check c 0-60, check b 60-120, check a 120-180");
}

TEST_CASE("closing fits that cannot be put in order", "[unit]") {
    const auto blockersOf = [](const std::string& checks) {
        LogBuilder log = logWith(book("[positions.humidifier]\n[positions.hme]\n" + checks));
        fitHumidifier(log);
        log.on(device).fit("hme", {{"groups", list({"adult"})}});
        const auto plan = planned(log);
        CHECK(plan.tasks.empty());
        CHECK_FALSE(plan.readyAt);
        return blockers(plan);
    };
    SECTION("a check that must be before and after one") {
        CHECK(blockersOf("[checks.leak]\ntakes = \"PT2M\"\n" + notWithHumidifier +
                         "voided_by = [{ event = \"fit humidifier\" }]\n") ==
              "closing_fit humidifier");
        CHECK(blockersOf("[checks.leak]\ntakes = \"PT2M\"\n" + notWithHumidifier +
                         "needs_match = [\"humidifier\"]\n") == "closing_fit humidifier");
    }
    SECTION("one check before it that comes after one behind it") {
        CHECK(blockersOf("[checks.leak]\ntakes = \"PT2M\"\nafter = [\"alarm\"]\n" +
                         notWithHumidifier +
                         "[checks.alarm]\ntakes = \"PT2M\"\nneeds_match = [\"humidifier\"]\n") ==
              "closing_fit humidifier");
    }
    SECTION("two in each other's way; each is named") {
        CHECK(blockersOf("[checks.leak]\ntakes = \"PT2M\"\n" + notWithHumidifier +
                         "needs_match = [\"hme\"]\n[checks.alarm]\ntakes = \"PT2M\"\nnot_with = "
                         "[{ position = \"hme\" }]\nneeds_match = [\"humidifier\"]\n") ==
              "closing_fit hme, closing_fit humidifier");
    }
}
