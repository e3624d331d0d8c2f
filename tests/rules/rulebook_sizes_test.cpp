// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// How much a rulebook may hold of anything on which the time and memory of an answer depend: so
// much is taken, and one more is refused where it stands.
#include "support/rulebook_texts.h"

#include <catch2/catch.hpp>

#include <algorithm>

using Code = rules::RulebookRemark::Code;
using support::checkEach;
using support::head;
using support::Remark;
using support::taken;

namespace {

constexpr int mostTaken = 100;
constexpr int mostGroups = 30;

// A section of tables whose text is alike; `body` is a whole line, or none.
struct Section {
    std::string name;
    std::string body;
    int most;
    int inHead;
};

// Keys that do not sort as they stand.
std::string tablesOf(const Section& section, int count) {
    std::string text;
    for (int index = 0; index < count; ++index) {
        text += "[" + section.name + ".k" + std::to_string(index) + "]\n" + section.body;
    }
    return text;
}

// A list, or a condition, of entries that are alike, after lines and an opening.
struct Listing {
    std::string lines;
    std::string opening;
    std::string entry;
    std::string closing;
    std::string path;
};

std::string listOf(const Listing& listing, int count) {
    std::string text = listing.lines + listing.opening;
    for (int index = 0; index < count; ++index) {
        text += listing.entry + ", ";
    }
    return text + listing.closing + "\n";
}

const std::vector<Listing> listings{
    {"", "needs = [", "\"gas\"", "]", "checks.leak.needs"},
    {"", "needs_match = [", "\"hme\"", "]", "checks.leak.needs_match"},
    {"[checks.b]\ntakes = \"PT1M\"\n", "after = [", "\"leak\"", "]", "checks.b.after"},
    {"", "not_with = [", "{ position = \"hme\" }", "]", "checks.leak.not_with"},
    {"", "voided_by = [", "{ event = \"soil\" }", "]", "checks.leak.voided_by"},
    {"", "not_before = [", "{ event = \"power_on\", wait = \"PT1M\" }", "]",
     "checks.leak.not_before"},
    {"", "applies_when = { model = [", "\"Larch\"", "] }", "checks.leak.applies_when.model"},
    {"[services.s]\n", "due_after = [", "\"software\"", "]", "services.s.due_after"},
    {"[holds.h]\n", "release_by = [", "\"chief\"", "]", "holds.h.release_by"},
    {"[holds.h]\n", "sheet = [", "\"Line\"", "]", "holds.h.sheet"},
    {"[authority]\n", "clear = [", "\"chief\"", "]", "authority.clear"},
};

// Within [checks.leak]: more than is taken of what is kept only, or is a name and no more.
std::string meaningNothing() {
    std::string calibrates;
    std::string forLater;
    std::string labels;
    for (int index = 0; index <= mostTaken; ++index) {
        const auto number = std::to_string(index);
        calibrates += "calibrates.a" + number + " = 1\n";
        forLater += "x_" + number + " = 1\n";
        labels += "r" + number + " = \"Role\"\n";
    }
    return calibrates + forLater + "[labels.roles]\n" + labels;
}

}  // namespace

TEST_CASE("A par is no more than a muster can be asked for", "[unit]") {
    CHECK(taken(head + "[groups.c]\npar = 999\n")->group("c")->par == 999);
    checkEach({
        {"[groups.c]\npar = 1000\n", {Code::TooLarge, "groups.c.par", 13, 7, "999"}},
        {"[groups.c]\npar = 1000000000\n", {Code::TooLarge, "groups.c.par", 13, 7, "999"}},
        {"[groups.c]\npar = 9000000000\n", {Code::TooLarge, "groups.c.par", 13, 7, "999"}},
    });
}

TEST_CASE("A section holds so many tables and no more", "[unit]") {
    const std::vector<Section> sections{
        {"groups", "", mostGroups, 2},
        {"positions", "", mostTaken, 2},
        {"choices", "positions = [\"hme\"]\n", mostTaken, 0},
        {"conflicts", "when = {}\n", mostTaken, 0},
        {"checks", "takes = \"PT1M\"\n", mostTaken, 1},
        {"checks.leak.measures", "unit = \"mL\"\n", mostTaken, 0},
        {"services", "", mostTaken, 1},
        {"holds", "", mostTaken, 0},
        {"faults", "", mostTaken, 0},
    };
    for (const auto& section : sections) {
        INFO(section.name);
        const int more = section.most - section.inHead;
        taken(head + tablesOf(section, more));
        const auto reading = support::read(head + tablesOf(section, more + 5));
        CHECK(reading.rulebook == nullptr);
        const int line = 12 + more * (section.body.empty() ? 1 : 2);
        const int column = static_cast<int>(section.name.size()) + 3;
        CHECK(support::remarks(reading.faults) ==
              std::vector{Remark{Code::TooMany, section.name + ".k" + std::to_string(more), line,
                                 column, std::to_string(section.most)}});
    }
}

TEST_CASE("A list holds so many entries and no more", "[unit]") {
    for (const auto& listing : listings) {
        INFO(listing.path);
        taken(head + listOf(listing, mostTaken));
        const auto reading = support::read(head + listOf(listing, mostTaken + 1));
        CHECK(reading.rulebook == nullptr);
        const auto lines = std::ranges::count(listing.lines, '\n');
        const auto column = listing.opening.size() + 1 +
                            std::size_t{mostTaken} * (listing.entry.size() + 2);
        CHECK(support::remarks(reading.faults) ==
              std::vector{Remark{Code::TooMany, listing.path + ".100",
                                 12 + static_cast<int>(lines), static_cast<int>(column), "100"}});
    }
}

TEST_CASE("A condition holds so many entries, not counting what means nothing", "[unit]") {
    std::string text = "applies_when = { ";
    for (int index = 0; index < mostTaken; ++index) {
        text += (index == 0 ? "\"feature.f" : ", \"feature.f") + std::to_string(index) +
                "\" = true";
    }
    taken(head + text + " }\n" + meaningNothing());
    const auto column = static_cast<int>(text.size()) + 3;
    checkEach({{text + ", \"feature.more\" = true }\n" + meaningNothing(),
                {Code::TooMany, "checks.leak.applies_when.feature.more", 12, column, "100"}}});
}

TEST_CASE("That a choice lists too many is told once", "[unit]") {
    const auto reading = support::read(
        head + listOf({"[choices.c]\n", "positions = [", "\"hme\"", "]", ""}, mostTaken + 1));
    CHECK(std::ranges::count(reading.faults, Code::TooMany, &rules::RulebookRemark::code) == 1);
    CHECK(std::ranges::count(reading.faults, Code::KeyTaken, &rules::RulebookRemark::code) ==
          mostTaken);
}
