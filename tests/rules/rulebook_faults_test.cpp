// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every way in which a rulebook is refused: the code, the path and the place of each fault.
#include "support/rulebook_texts.h"

#include <catch2/catch.hpp>

using Code = rules::RulebookRemark::Code;
using support::checkEach;
using support::head;
using support::onlyFault;
using support::Remark;
using support::replaced;

TEST_CASE("The head itself is taken", "[unit]") {
    const auto reading = support::read(head);
    CHECK(support::remarks(reading.faults).empty());
    CHECK(reading.rulebook != nullptr);
}

TEST_CASE("A text that is no TOML is refused where the parser stopped", "[unit]") {
    const auto broken = onlyFault(head + "blocks = \n");
    CHECK(broken.code == Code::NotToml);
    CHECK(broken.line == 12);
    CHECK(broken.column == 10);
    CHECK(broken.detail.find("expected value") != std::string::npos);

    const auto twice = onlyFault(head + "takes = \"PT3M\"\n");
    CHECK(twice.code == Code::NotToml);
    CHECK(twice.line == 12);
    CHECK(twice.detail.find("takes") != std::string::npos);

    const auto zero = onlyFault(head + "x_a = \"" + std::string(1, '\0') + "\"\n");
    CHECK(zero.code == Code::NotToml);
    CHECK(zero.line == 12);
}

TEST_CASE("A text that is no UTF-8 is refused before it is parsed", "[unit]") {
    const std::vector<std::string> bad{"\xFF", "\xC3(", "\xC0\xAF", "\xED\xA0\x80",
                                       "\xF4\x90\x80\x80", "\x80", "\xE2\x82"};
    for (const auto& bytes : bad) {
        const auto text = replaced(head, "Kestrel", "\xC3\xA9" + bytes);
        CHECK(onlyFault(text) == Remark{Code::NotUtf8, "", 2, 11, ""});
    }
    const std::string valid = "\xC3\xA9\xE2\x82\xAC\xF0\x9F\x8C\x8A";
    CHECK(support::read(replaced(head, "Kestrel", valid)).rulebook);
}

TEST_CASE("A text over one mebibyte is refused", "[unit]") {
    const std::string filler(1024 * 1024 - head.size() - 1, '#');
    CHECK(support::read(head + filler + "\n").rulebook != nullptr);
    CHECK(onlyFault(head + filler + "#\n") == Remark{Code::TooLong, "", 1, 1, "1048577"});
}

TEST_CASE("A key of very many names does not exhaust the stack", "[unit]") {
    std::string key = "x_a";
    for (int count = 0; count < 100'000; ++count) {
        key += ".a";
    }
    const auto fault = onlyFault(head + key + " = 1\n");
    CHECK(fault.code == Code::NotToml);
    CHECK(fault.line == 12);
    const std::string dots(100, '.');
    CHECK(support::read(head + "label = \"It \\\" says" + dots + "\" # and" + dots +
                        "\nadvice = '''" + dots + "\n" + dots + "'''\n")
              .rulebook);
}

TEST_CASE("What is required and missing is named at its table", "[unit]") {
    const auto without = [](const std::string& line) { return replaced(head, line, ""); };
    CHECK(onlyFault(without("format = 1\n")) == Remark{Code::Missing, "format", 1, 1, ""});
    CHECK(onlyFault(without("title = \"Kestrel Bay\"\n")) ==
          Remark{Code::Missing, "title", 1, 1, ""});
    CHECK(onlyFault(without("edition = \"2026-1\"\n")) ==
          Remark{Code::Missing, "edition", 1, 1, ""});
    CHECK(onlyFault(without("time_zone = \"America/Chicago\"\n")) ==
          Remark{Code::Missing, "time_zone", 1, 1, ""});
    CHECK(onlyFault(without("takes = \"PT2M\"\n")) ==
          Remark{Code::Missing, "checks.leak.takes", 10, 1, ""});
    checkEach({
        {"[checks.leak.measures.m]\n", {Code::Missing, "checks.leak.measures.m.unit", 12, 1, ""}},
        {"[choices.c]\n", {Code::Missing, "choices.c.positions", 12, 1, ""}},
        {"[conflicts.c]\n", {Code::Missing, "conflicts.c.when", 12, 1, ""}},
        {"voided_by = [{ event = \"soil\" }, {}]\n",
         {Code::Missing, "checks.leak.voided_by.1.event", 12, 34, ""}},
        {"not_before = [{ event = \"power_on\" }]\n",
         {Code::Missing, "checks.leak.not_before.0.wait", 12, 15, ""}},
        {"not_before = [{ wait = \"PT1M\" }]\n",
         {Code::Missing, "checks.leak.not_before.0.event", 12, 15, ""}},
        {"not_with = [{ when = {} }]\n",
         {Code::Missing, "checks.leak.not_with.0.position", 12, 13, ""}},
    });
}

TEST_CASE("An unknown field is named wherever it stands", "[unit]") {
    const auto unknown = [](std::string path, int line, int column) {
        return Remark{Code::UnknownField, std::move(path), line, column, "colour"};
    };
    CHECK(onlyFault("colour = 1\n" + head) == unknown("colour", 1, 1));
    checkEach({
        {"colour = 1\n", unknown("checks.leak.colour", 12, 1)},
        {"[colour]\na = 1\n", unknown("colour", 12, 2)},
        {"[groups.c]\ncolour = 1\n", unknown("groups.c.colour", 13, 1)},
        {"[positions.c]\ncolour = 1\n", unknown("positions.c.colour", 13, 1)},
        {"[choices.c]\npositions = [\"hme\"]\ncolour = 1\n", unknown("choices.c.colour", 14, 1)},
        {"[conflicts.c]\nwhen = {}\ncolour = 1\n", unknown("conflicts.c.colour", 14, 1)},
        {"[services.c]\ncolour = 1\n", unknown("services.c.colour", 13, 1)},
        {"[holds.c]\ncolour = 1\n", unknown("holds.c.colour", 13, 1)},
        {"[faults.c]\ncolour = 1\n", unknown("faults.c.colour", 13, 1)},
        {"[labels.colour]\na = \"A\"\n", unknown("labels.colour", 12, 9)},
        {"measures.m = { unit = \"mL\", colour = 1 }\n",
         unknown("checks.leak.measures.m.colour", 12, 29)},
        {"voided_by = [{ event = \"soil\", colour = 1 }]\n",
         unknown("checks.leak.voided_by.0.colour", 12, 32)},
        {"not_with = [{ position = \"hme\", colour = 1 }]\n",
         unknown("checks.leak.not_with.0.colour", 12, 33)},
        {"not_before = [{ event = \"power_on\", wait = \"PT1M\", colour = 1 }]\n",
         unknown("checks.leak.not_before.0.colour", 12, 52)},
    });
}

TEST_CASE("Fields for later are kept and mean nothing", "[unit]") {
    const auto reading = support::read(
        "x_a = 1\n" + head +
        "x_a = 1\nlabel = { en = \"Leak\", x_a = 1 }\n"
        "voided_by = [{ event = \"soil\", x_a = 1 }]\n"
        "not_with = [{ position = \"hme\", x_a = 1 }]\n"
        "not_before = [{ event = \"power_on\", wait = \"PT1M\", x_a = 1 }]\n"
        "[checks.leak.measures.m]\nunit = \"mL\"\nx_a = 1\n[labels]\nx_a = 1\n"
        "[authority]\nx_a = 1\n[x_table.inner]\na = 1\n"
        "[positions.p]\nx_a = 2026-01-01\n[services.s]\nx_a = [1]\n[holds.h]\nx_a = 1\n");
    CHECK(support::remarks(reading.faults).empty());
    CHECK(reading.rulebook->checks.front().label == rules::Localized{{"en", "Leak"}});
}

TEST_CASE("A value of the wrong type is named with what is wanted", "[unit]") {
    const auto wrong = [](std::string path, int line, int column, std::string detail) {
        return Remark{Code::WrongType, std::move(path), line, column, std::move(detail)};
    };
    CHECK(onlyFault(replaced(head, "format = 1", "format = 1.0")) ==
          wrong("format", 1, 10, "whole number"));
    CHECK(onlyFault(replaced(head, "\"Kestrel Bay\"", "7")) == wrong("title", 2, 9, "text"));
    CHECK(onlyFault(replaced(head, "\"PT2M\"", "00:02:00")) ==
          wrong("checks.leak.takes", 11, 9, "text"));
    checkEach({
        {"waivable = \"yes\"\n", wrong("checks.leak.waivable", 12, 12, "true or false")},
        {"valid_for = 2026-01-01\n", wrong("checks.leak.valid_for", 12, 13, "text")},
        {"after = \"leak\"\n", wrong("checks.leak.after", 12, 9, "list")},
        {"needs = [1]\n", wrong("checks.leak.needs.0", 12, 10, "text")},
        {"voided_by = [\"soil\"]\n", wrong("checks.leak.voided_by.0", 12, 14, "table")},
        {"applies_when = \"always\"\n", wrong("checks.leak.applies_when", 12, 16, "table")},
        {"applies_when = { in_use = \"yes\" }\n",
         wrong("checks.leak.applies_when.in_use", 12, 27, "true or false")},
        {"applies_when = { \"feature.co2\" = [true, 1] }\n",
         wrong("checks.leak.applies_when.feature.co2.1", 12, 41, "true or false")},
        {"applies_when = { model = true }\n",
         wrong("checks.leak.applies_when.model", 12, 26, "text")},
        {"applies_when = { model = [] }\n",
         wrong("checks.leak.applies_when.model", 12, 26, "list with an element")},
        {"calibrates = 1\n", wrong("checks.leak.calibrates", 12, 14, "table")},
        {"label = 1\n", wrong("checks.leak.label", 12, 9, "text or table")},
        {"advice = { en = 1 }\n", wrong("checks.leak.advice.en", 12, 17, "text")},
        {"[holds.h]\nsheet = \"Line\"\n", wrong("holds.h.sheet", 13, 9, "list")},
        {"[holds.h]\nsheet = [1]\n", wrong("holds.h.sheet.0", 13, 10, "text or table")},
        {"[checks.leak.measures.m]\nunit = \"mL\"\nmax = \"1\"\n",
         wrong("checks.leak.measures.m.max", 14, 7, "number or table")},
        {"[checks.leak.measures.m]\nunit = \"mL\"\nmax = { adult = \"1\" }\n",
         wrong("checks.leak.measures.m.max.adult", 14, 17, "number")},
        {"[choices.c]\npositions = []\n",
         wrong("choices.c.positions", 13, 13, "list with an element")},
        {"[groups.c]\npar = 1.5\n", wrong("groups.c.par", 13, 7, "whole number")},
        {"[groups]\nc = 1\n", wrong("groups.c", 13, 5, "table")},
    });
}

TEST_CASE("A malformed key is named where it stands", "[unit]") {
    const auto bad = [](std::string path, int line, int column, std::string key) {
        return Remark{Code::BadKey, std::move(path), line, column, std::move(key)};
    };
    checkEach({
        {"[checks.Leak]\ntakes = \"PT1M\"\n", bad("checks.Leak", 12, 9, "Leak")},
        {"[positions.2nd]\n", bad("positions.2nd", 12, 12, "2nd")},
        {"[groups.a-b]\n", bad("groups.a-b", 12, 9, "a-b")},
        {"[labels.roles]\nRT = \"Therapist\"\n", bad("labels.roles.RT", 13, 1, "RT")},
        {"needs = [\"gas\", \"Mains power\"]\n", bad("checks.leak.needs.1", 12, 17, "Mains power")},
        {"[holds.h]\nrelease_by = [\"RT\"]\n", bad("holds.h.release_by.0", 13, 15, "RT")},
        {"[authority]\nclear = [\"RT\"]\n", bad("authority.clear.0", 13, 10, "RT")},
    });
}

TEST_CASE("A word that is none of those allowed is refused with them", "[unit]") {
    const auto bad = [](std::string path, int line, int column, std::string words) {
        return Remark{Code::BadWord, std::move(path), line, column, std::move(words)};
    };
    checkEach({
        {"blocks = \"sometimes\"\n", bad("checks.leak.blocks", 12, 10, "true, false, \"start\"")},
        {"blocks = 1\n", bad("checks.leak.blocks", 12, 10, "true, false, \"start\"")},
        {"[positions.p]\nreuse = \"often\"\n",
         bad("positions.p.reuse", 13, 9, "single_use, single_patient, reusable, permanent")},
        {"[positions.p]\nreprocess_level = \"medium\"\n",
         bad("positions.p.reprocess_level", 13, 19, "low, high, sterile")},
        {"[checks.leak.measures.m]\nunit = \"mL\"\nbreach = \"warn\"\n",
         bad("checks.leak.measures.m.breach", 14, 10, "fail, discount")},
    });
}

TEST_CASE("Numbers, times, units and zones that are none are refused", "[unit]") {
    CHECK(onlyFault(replaced(head, "format = 1", "format = 2")) ==
          Remark{Code::BadFormat, "format", 1, 10, "2"});
    CHECK(onlyFault(replaced(head, "Chicago", "Chicogo")) ==
          Remark{Code::BadZone, "time_zone", 4, 13, "America/Chicogo"});
    checkEach({
        {"valid_for = \"P1M\"\n", {Code::BadDuration, "checks.leak.valid_for", 12, 13, "P1M"}},
        {"valid_for = \"-P3D\"\n", {Code::BadDuration, "checks.leak.valid_for", 12, 13, "-P3D"}},
        {"attended = \"3 min\"\n", {Code::BadDuration, "checks.leak.attended", 12, 12, "3 min"}},
        {"[services.s]\nevery = \"P30D\"\n",
         {Code::BadInterval, "services.s.every", 13, 9, "P30D"}},
        {"[services.s]\ngrace = \"PT36H\"\n", {Code::BadGrace, "services.s.grace", 13, 9, "PT36H"}},
        {"[services.s]\ngrace = \"P1M\"\n", {Code::BadDuration, "services.s.grace", 13, 9, "P1M"}},
        {"[groups.c]\npar = -1\n", {Code::BadNumber, "groups.c.par", 13, 7, "-1"}},
        {"[positions.p]\nmax_reprocess = 3000000000\n",
         {Code::BadNumber, "positions.p.max_reprocess", 13, 17, "3000000000"}},
        {"[checks.leak.measures.m]\nunit = \"mL\"\nmin = nan\n",
         {Code::BadNumber, "checks.leak.measures.m.min", 14, 7, ""}},
        {"[checks.leak.measures.m]\nunit = \"mL\"\nmax = { adult = inf, neonatal = 1 }\n",
         {Code::BadNumber, "checks.leak.measures.m.max.adult", 14, 17, ""}},
        {"[checks.leak.measures.m]\nunit = \"litre\"\n",
         {Code::BadUnit, "checks.leak.measures.m.unit", 13, 8, "litre"}},
    });
}

TEST_CASE("Events, paths and attributes that are none are refused", "[unit]") {
    checkEach({
        {"voided_by = [{ event = \"use_stop\" }]\n",
         {Code::BadEvent, "checks.leak.voided_by.0.event", 12, 24, "use_stop"}},
        {"voided_by = [{ event = \"fit\" }]\n",
         {Code::BadEvent, "checks.leak.voided_by.0.event", 12, 24, "fit"}},
        {"not_before = [{ event = \"use_end\", wait = \"PT1M\" }]\n",
         {Code::BadEvent, "checks.leak.not_before.0.event", 12, 25, "use_end"}},
        {"[services.s]\ndue_after = [\"software\", \"clean\"]\n",
         {Code::BadEvent, "services.s.due_after.1", 13, 26, "clean"}},
        {"applies_when = { weather = \"fine\" }\n",
         {Code::BadPath, "checks.leak.applies_when.weather", 12, 18, "weather"}},
        {"applies_when = { feature.co2 = true }\n",
         {Code::BadPath, "checks.leak.applies_when.feature", 12, 18, "feature"}},
        {"applies_when = { \"circuit.layout.x\" = \"a\" }\n",
         {Code::BadPath, "checks.leak.applies_when.circuit.layout.x", 12, 18, "circuit.layout.x"}},
        {"applies_when = { \"last_use.group\" = \"adult\" }\n",
         {Code::BadPath, "checks.leak.applies_when.last_use.group", 12, 18, "last_use.group"}},
        {"applies_when = { \"feature.CO2\" = true }\n",
         {Code::BadPath, "checks.leak.applies_when.feature.CO2", 12, 18, "feature.CO2"}},
        {"voided_by = [{ event = \"fit hme\", only = \"old_part\" }]\n",
         {Code::BadOnly, "checks.leak.voided_by.0.only", 12, 42, "old_part"}},
        {"voided_by = [{ event = \"fit hme\", only = \"different Lot\" }]\n",
         {Code::BadOnly, "checks.leak.voided_by.0.only", 12, 42, "different Lot"}},
        {"voided_by = [{ event = \"change hme\", only = \"new_part\" }]\n",
         {Code::OnlyWithoutFit, "checks.leak.voided_by.0.only", 12, 45, "change hme"}},
    });
}

TEST_CASE("Every fault is listed in the order of the text", "[unit]") {
    const auto reading = support::read(
        replaced(head, "Chicago", "Chicogo") +
        "valid_for = \"a week\"\nafter = [\"leak\", \"zeroing\"]\nblocks = \"maybe\"\n"
        "[positions.model]\nrequired = 1\n");
    CHECK(reading.rulebook == nullptr);
    CHECK(support::remarks(reading.faults) ==
          std::vector<Remark>{
              {Code::BadZone, "time_zone", 4, 13, "America/Chicogo"},
              {Code::BadDuration, "checks.leak.valid_for", 12, 13, "a week"},
              {Code::Cycle, "checks.leak.after.0", 13, 10, "leak, leak"},
              {Code::UnknownCheck, "checks.leak.after.1", 13, 18, "zeroing"},
              {Code::BadWord, "checks.leak.blocks", 14, 10, "true, false, \"start\""},
              {Code::ReservedPosition, "positions.model", 15, 12, "model"},
              {Code::WrongType, "positions.model.required", 16, 12, "true or false"},
          });
}
