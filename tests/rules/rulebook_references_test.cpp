// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a rulebook says of its own parts and does not hold together: names, circles, limits,
// authority.
#include "support/rulebook_texts.h"

#include <catch2/catch.hpp>

using Code = rules::RulebookRemark::Code;
using support::checkEach;
using support::head;
using support::onlyFault;
using support::Remark;
using support::replaced;

TEST_CASE("A name that the text does not give is refused", "[unit]") {
    checkEach({
        {"needs_match = [\"hme\", \"nose\"]\n",
         {Code::UnknownPosition, "checks.leak.needs_match.1", 12, 23, "nose"}},
        {"not_with = [{ position = \"nose\" }]\n",
         {Code::UnknownPosition, "checks.leak.not_with.0.position", 12, 26, "nose"}},
        {"voided_by = [{ event = \"reprocess nose\" }]\n",
         {Code::UnknownPosition, "checks.leak.voided_by.0.event", 12, 24, "nose"}},
        {"applies_when = { \"nose.fitted\" = true }\n",
         {Code::UnknownPosition, "checks.leak.applies_when.nose.fitted", 12, 18, "nose"}},
        {"[choices.c]\npositions = [\"nose\"]\n",
         {Code::UnknownPosition, "choices.c.positions.0", 13, 14, "nose"}},
        {"after = [\"zeroing\"]\n", {Code::UnknownCheck, "checks.leak.after.0", 12, 10, "zeroing"}},
        {"applies_when = { group = [\"adult\", \"adults\"] }\n",
         {Code::UnknownGroup, "checks.leak.applies_when.group.1", 12, 36, "adults"}},
        {"[checks.leak.measures.m]\nunit = \"mL\"\nmax = { adults = 1 }\n",
         {Code::UnknownGroup, "checks.leak.measures.m.max.adults", 14, 9, "adults"}},
        {"voided_by = [{ event = \"service pm\" }]\n",
         {Code::UnknownService, "checks.leak.voided_by.0.event", 12, 24, "pm"}},
        {"[services.s]\ndue_after = [\"service pm\"]\n",
         {Code::UnknownService, "services.s.due_after.0", 13, 14, "pm"}},
    });
}

TEST_CASE("Holds and faults need no table to be named in an event", "[unit]") {
    CHECK(support::read(head +
                        "voided_by = [{ event = \"release any_hold\" }, { event = \"clear fan\" }, "
                        "{ event = \"fault *\" }, { event = \"fit *\" }, "
                        "{ event = \"alarm tone\" }]\n")
              .rulebook);
}

TEST_CASE("At least one group is wanted", "[unit]") {
    const auto none = replaced(replaced(head, "[groups.adult]\n", ""), "[groups.neonatal]\n", "");
    CHECK(onlyFault(none) == Remark{Code::NoGroup, "groups", 1, 1, ""});
    CHECK(onlyFault(replaced(none, "[positions.circuit]\n", "[groups]\n[positions.circuit]\n")) ==
          Remark{Code::NoGroup, "groups", 5, 1, ""});
}

TEST_CASE("Checks that wait for each other are named round the circle", "[unit]") {
    checkEach({
        {"after = [\"leak\"]\n", {Code::Cycle, "checks.leak.after.0", 12, 10, "leak, leak"}},
        {"after = [\"a\", \"b\"]\n[checks.a]\ntakes = \"PT1M\"\n"
         "[checks.b]\ntakes = \"PT1M\"\nafter = [\"a\", \"leak\"]\n",
         {Code::Cycle, "checks.leak.after.1", 12, 15, "b, leak, b"}},
    });
    std::string chain = "after = [\"c0\"]\n";
    for (int index = 0; index < 5000; ++index) {
        const auto next = index == 4999 ? std::string("leak") : "c" + std::to_string(index + 1);
        chain += "[checks.c" + std::to_string(index) + "]\ntakes = \"PT1M\"\nafter = [\"" + next +
                 "\"]\n";
    }
    const auto reading = support::read(head + chain);
    CHECK(reading.rulebook == nullptr);
    REQUIRE(reading.faults.size() == 2);
    CHECK(reading.faults[0].code == Code::Cycle);
    CHECK(reading.faults[1].code == Code::TooMany);
}

TEST_CASE("Attendance longer than the whole is refused", "[unit]") {
    checkEach({
        {"attended = \"PT3M\"\n",
         {Code::AttendedOverTakes, "checks.leak.attended", 12, 12, "takes"}},
        {"[positions.p]\nreprocess_takes = \"PT4M\"\nreprocess_attended = \"PT5M\"\n",
         {Code::AttendedOverTakes, "positions.p.reprocess_attended", 14, 22, "reprocess_takes"}},
        {"[positions.p]\nreprocess_attended = \"PT31M\"\n",
         {Code::AttendedOverTakes, "positions.p.reprocess_attended", 13, 22, "reprocess_takes"}},
    });
    CHECK(support::read(head + "attended = \"PT2M\"\n[positions.p]\nreprocess_takes = \"PT4M\"\n")
              .rulebook);
}

TEST_CASE("A key that stands for two things is refused", "[unit]") {
    checkEach({
        {"[choices.hme]\npositions = [\"hme\"]\n",
         {Code::KeyTaken, "choices.hme", 12, 10, "positions.hme"}},
        {"[choices.c]\npositions = [\"hme\"]\n[conflicts.c]\nwhen = {}\n",
         {Code::KeyTaken, "choices.c", 12, 10, "conflicts.c"}},
        {"[choices.c]\npositions = [\"hme\", \"circuit\", \"hme\"]\n",
         {Code::KeyTaken, "choices.c.positions.2", 13, 32, "choices.c.positions.0"}},
    });
}

TEST_CASE("A position may not be called as a path begins", "[unit]") {
    for (const std::string name : {"feature", "group", "model", "in_use", "last_use"}) {
        checkEach({{"[positions." + name + "]\n",
                    {Code::ReservedPosition, "positions." + name, 12, 12, name}}});
    }
}

TEST_CASE("A least value over the greatest is refused for each group", "[unit]") {
    const std::string measure = "[checks.leak.measures.m]\nunit = \"mL\"\n";
    const std::string path = "checks.leak.measures.m.";
    checkEach({
        {measure + "min = 3\nmax = 2.5\n", {Code::MinOverMax, path + "max", 15, 7, ""}},
        {measure + "min = 3\nmax = { adult = 4, neonatal = 2 }\n",
         {Code::MinOverMax, path + "max.neonatal", 15, 31, "neonatal"}},
        {measure + "min = { adult = 3, neonatal = 1 }\nmax = 2\n",
         {Code::MinOverMax, path + "min.adult", 14, 17, "adult"}},
        {measure + "min = { adult = 3, neonatal = 1 }\nmax = { neonatal = 0, adult = 3 }\n",
         {Code::MinOverMax, path + "max.neonatal", 15, 20, "neonatal"}},
    });
    CHECK(support::read(head + measure + "min = { adult = 3 }\nmax = { neonatal = 1 }\n").rulebook);
}

TEST_CASE("Limits of a required measure reach every group that the check meets", "[unit]") {
    const std::string measure = "[checks.leak.measures.m]\nunit = \"mL\"\nrequired = true\n";
    checkEach({
        {measure + "max = { adult = 4 }\n",
         {Code::LimitLacksGroup, "checks.leak.measures.m.max", 15, 7, "neonatal"}},
        {measure + "min = { neonatal = 1 }\nmax = 5\n",
         {Code::LimitLacksGroup, "checks.leak.measures.m.min", 15, 7, "adult"}},
        {"applies_when = { group = [\"adult\", \"neonatal\"] }\n" + measure +
             "max = { adult = 4 }\n",
         {Code::LimitLacksGroup, "checks.leak.measures.m.max", 16, 7, "neonatal"}},
    });
    CHECK(support::read(head + "applies_when = { group = \"adult\" }\n" + measure +
                        "max = { adult = 4 }\n")
              .rulebook);
    CHECK(support::read(head + measure).rulebook);
}

TEST_CASE("Authority is given over the kinds that have any", "[exhaustive]") {
    const std::string allowed =
        "adopt person notice enrol retire reprocess check clear release waive notice_done service "
        "strike review sign ";
    for (int index = 0; index < logbook::kindCount; ++index) {
        const auto kind = static_cast<logbook::Kind>(index);
        const std::string name(logbook::kindName(kind));
        const std::string text = "[authority]\n" + name + " = [\"chief\"]\n";
        INFO(name);
        if (allowed.find(name + " ") != std::string::npos) {
            const auto reading = support::read(head + text);
            REQUIRE(reading.rulebook);
            CHECK(reading.rulebook->authority.at(kind) == std::vector<std::string>{"chief"});
        } else {
            checkEach({{text, {Code::BadAuthority, "authority." + name, 13, 1, name}}});
        }
    }
    checkEach({{"[authority]\nclean = []\n",
                {Code::BadAuthority, "authority.clean", 13, 1, "clean"}}});
}

