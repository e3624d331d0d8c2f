// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a rulebook is warned of, and that nothing else is.
#include "support/rulebook_texts.h"

#include <catch2/catch.hpp>

using Code = rules::RulebookRemark::Code;
using support::Remark;
using support::replaced;

namespace {

// Nothing to warn of. Ends within [checks.soundness]; what is appended begins on line 20.
const std::string sound =
    "format = 1\n"
    "title = \"Kestrel Bay\"\n"
    "edition = \"2026-1\"\n"
    "time_zone = \"America/Chicago\"\n"
    "[groups.adult]\n"
    "[groups.neonatal]\n"
    "[positions.circuit]\n"
    "[services.acceptance]\n"
    "before_first_use = true\n"
    "[authority]\n"
    "adopt = [\"chief\"]\n"
    "person = [\"chief\"]\n"
    "clear = [\"biomed\"]\n"
    "release = [\"biomed\"]\n"
    "waive = [\"chief\"]\n"
    "strike = [\"chief\"]\n"
    "[checks.soundness]\n"
    "takes = \"PT2M\"\n"
    "voided_by = [{ event = \"use_end\" }, { event = \"clear *\" }]\n";

std::vector<Remark> warnings(const std::string& text) {
    const auto reading = support::read(text);
    INFO(text);
    CHECK(support::remarks(reading.faults).empty());
    CHECK(reading.rulebook != nullptr);
    return support::remarks(reading.warnings);
}

// A sound check of another name with these fields in place of its own.
std::string otherCheck(const std::string& fields) {
    return sound + "[checks.zeroing]\ntakes = \"PT1M\"\n" + fields;
}

}  // namespace

TEST_CASE("A sound rulebook is warned of nothing", "[unit]") {
    CHECK(warnings(sound).empty());
}

TEST_CASE("A blocking check that outlasts a use is warned of", "[unit]") {
    const std::string fields =
        "voided_by = [{ event = \"use_start\" }, { event = \"software\" }]\n";
    const Remark warning{Code::NotVoidedByUseEnd, "checks.zeroing", 20, 1, ""};
    CHECK(warnings(otherCheck(fields)) == std::vector{warning});
    CHECK(warnings(otherCheck("blocks = \"start\"\n" + fields)) == std::vector{warning});
    CHECK(warnings(otherCheck("blocks = false\n" + fields)).empty());
}

TEST_CASE("A check that outlasts every repair is warned of", "[unit]") {
    const Remark warning{Code::NotVoidedByRepair, "checks.zeroing", 20, 1, ""};
    CHECK(warnings(otherCheck("voided_by = [{ event = \"use_end\" }]\n")) == std::vector{warning});
    CHECK(warnings(otherCheck("blocks = false\n")) == std::vector{warning});
    for (const std::string event : {"clear fan", "release *", "service *", "software"}) {
        CHECK(warnings(otherCheck("voided_by = [{ event = \"use_end\" }, { event = \"" + event +
                                  "\" }]\n"))
                  .empty());
    }
}

TEST_CASE("A validity over thirty days is warned of", "[unit]") {
    CHECK(warnings(sound + "valid_for = \"P30D\"\n").empty());
    CHECK(warnings(sound + "valid_for = \"P30DT1S\"\n") ==
          std::vector<Remark>{{Code::LongValidity, "checks.soundness.valid_for", 20, 13, ""}});
}

TEST_CASE("A part for a group whose reuse is not stated is warned of", "[unit]") {
    CHECK(warnings(sound + "[positions.sensor]\nmatch_group = true\n") ==
          std::vector<Remark>{
              {Code::MatchWithoutReuse, "positions.sensor.match_group", 21, 15, ""}});
    const std::string stated = "match_group = true\nreuse = \"permanent\"\n";
    CHECK(warnings(sound + "[positions.sensor]\n" + stated).empty());
    CHECK(warnings(sound + "[positions.sensor]\nmatch_group = false\n").empty());
}

TEST_CASE("A leak test during use is warned of by its key or label", "[unit]") {
    CHECK(warnings(sound + "during_use = true\nlabel = \"Soundness\"\n").empty());
    CHECK(warnings(sound + "during_use = true\nlabel = { es = \"Fuga\", en = \"LEAK test\" }\n") ==
          std::vector<Remark>{{Code::LeakDuringUse, "checks.soundness.during_use", 20, 14, ""}});
    const auto named = replaced(sound, "checks.soundness", "checks.circuit_leak");
    CHECK(warnings(named).empty());
    CHECK(warnings(named + "during_use = true\n") ==
          std::vector<Remark>{{Code::LeakDuringUse, "checks.circuit_leak.during_use", 20, 14, ""}});
}

TEST_CASE("A group that no check keeps from being ready is warned of", "[unit]") {
    CHECK(warnings(sound + "applies_when = { group = \"neonatal\" }\n") ==
          std::vector<Remark>{{Code::GroupWithoutCheck, "groups.adult", 5, 1, "adult"}});
    CHECK(warnings(sound + "applies_when = { group = [\"neonatal\", \"adult\"] }\n").empty());
    CHECK(warnings(sound + "applies_when = { in_use = false }\n").empty());
    CHECK(warnings(sound + "blocks = false\n").size() == 2);
    CHECK(warnings(sound + "blocks = \"start\"\n").size() == 2);
}

TEST_CASE("A rulebook without acceptance before the first use is warned of", "[unit]") {
    CHECK(warnings(replaced(sound, "before_first_use = true\n", "")) ==
          std::vector<Remark>{{Code::NoAcceptance, "services", 8, 1, ""}});
    CHECK(warnings(replaced(sound, "[services.acceptance]\nbefore_first_use = true\n", "")) ==
          std::vector<Remark>{{Code::NoAcceptance, "services", 1, 1, ""}});
}

TEST_CASE("A kind of weight that anyone may write is warned of", "[unit]") {
    for (const std::string kind : {"adopt", "person", "clear", "release", "waive", "strike"}) {
        const auto begin = sound.find("\n" + kind + " = ") + 1;
        const auto line = sound.substr(begin, sound.find('\n', begin) + 1 - begin);
        CHECK(warnings(replaced(sound, line, "")) ==
              std::vector<Remark>{{Code::NoAuthority, "authority." + kind, 10, 1, kind}});
        CHECK(warnings(replaced(sound, line, kind + " = []\n")).empty());
    }
}

TEST_CASE("Limits that leave out a group are warned of", "[unit]") {
    const std::string measure = "[checks.soundness.measures.m]\nunit = \"mL\"\n";
    CHECK(warnings(sound + measure + "max = { adult = 4 }\nmin = 1\n") ==
          std::vector<Remark>{{Code::LimitLeavesOutGroup, "checks.soundness.measures.m.max", 22, 7,
                               "neonatal"}});
    CHECK(warnings(sound + measure + "min = { neonatal = 4 }\n") ==
          std::vector<Remark>{{Code::LimitLeavesOutGroup, "checks.soundness.measures.m.min", 22, 7,
                               "adult"}});
    CHECK(warnings(sound + measure + "max = { adult = 4, neonatal = 2 }\n").empty());
    const std::string forAdults =
        "blocks = false\nvoided_by = [{ event = \"clear *\" }]\n"
        "applies_when = { group = \"adult\" }\n"
        "[checks.zeroing.measures.m]\nunit = \"mL\"\n";
    CHECK(warnings(otherCheck(forAdults + "max = { adult = 4 }\n")).empty());
}

TEST_CASE("A required measure that any value passes is warned of", "[unit]") {
    const std::string measure = "[checks.soundness.measures.m]\nunit = \"mL\"\n";
    CHECK(warnings(sound + measure).empty());
    CHECK(warnings(sound + measure + "required = true\nmin = 1\n").empty());
    CHECK(warnings(sound + measure + "required = true\nmax = 9\n").empty());
    CHECK(warnings(sound + measure + "required = true\n") ==
          std::vector<Remark>{{Code::NoLimit, "checks.soundness.measures.m", 20, 1, ""}});
}

TEST_CASE("A role or condition without a label is warned of where others have one", "[unit]") {
    const auto chief = replaced(sound, "strike = [\"chief\"]", "strike = [\"chef\"]");
    CHECK(warnings(chief).empty());
    const std::string roles = "[labels.roles]\nchief = \"Chief\"\nbiomed = \"Biomed\"\n";
    CHECK(warnings(sound + roles).empty());
    CHECK(warnings(chief + roles) ==
          std::vector<Remark>{{Code::RoleWithoutLabel, "authority.strike", 16, 10, "chef"}});
    const std::string hold = "[holds.incident]\nrelease_by = [\"risk\"]\n";
    CHECK(warnings(sound + hold + roles) ==
          std::vector<Remark>{
              {Code::RoleWithoutLabel, "holds.incident.release_by", 21, 14, "risk"}});
    const std::string needs = "needs = [\"main_power\"]\n";
    const std::string conditions = "[labels.conditions]\nmains_power = \"On mains\"\n";
    CHECK(warnings(sound + needs).empty());
    CHECK(warnings(sound + needs + conditions) ==
          std::vector<Remark>{
              {Code::ConditionWithoutLabel, "checks.soundness.needs", 20, 9, "main_power"}});
}

TEST_CASE("Warnings are given beside faults", "[unit]") {
    const auto reading = support::read(sound + "valid_for = \"P60D\"\nwaivable = 1\n");
    CHECK(reading.rulebook == nullptr);
    CHECK(reading.faults.size() == 1);
    CHECK(support::remarks(reading.warnings) ==
          std::vector<Remark>{{Code::LongValidity, "checks.soundness.valid_for", 20, 13, ""}});
}
