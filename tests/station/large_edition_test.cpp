// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A rulebook that asks for more than is taken: it is not adopted, and where it stands in the log
// already nothing is forecast by it, no unit is ready by it, and a start is recorded all the same.
#include "station/damaged_ward.h"
#include "station/import.h"
#include "station/standing.h"

using namespace support;

namespace {

std::string policyWithPar(std::string_view par, std::string_view edition = "2") {
    std::string text(Ward::policy);
    const auto put = [&text](std::string_view from, const std::string& to) {
        const auto at = text.find(from);
        REQUIRE(at != std::string::npos);
        text.replace(at, from.size(), to);
    };
    put("edition = \"1\"", "edition = \"" + std::string(edition) + "\"");
    put("[groups.adult]\n", "[groups.adult]\npar = " + std::string(par) + "\n");
    return text;
}

logbook::json::Object adoptionOf(const std::string& text) {
    const std::string_view instant = "2026-03-02T14:01:00Z";
    return {{"station", "er-2"}, {"seq", 1},     {"at", instant},   {"entered", instant},
            {"by", "mt"},        {"device", ""}, {"kind", "adopt"},
            {"body", logbook::json::Object{{"edition", "2"}, {"text", text}}}};
}

// As another build could have written it, which looked at less.
void keepAdoption(Ward& ward, const std::string& text) {
    const std::vector<logbook::Record> records{*logbook::readRecord(adoptionOf(text))};
    auto file = station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
    REQUIRE(file);
    REQUIRE(file->append(records, {"mt", ward.clock.now()}));
}

}  // namespace

TEST_CASE("A rulebook with a par beyond counting is neither adopted nor imported", "[unit]") {
    Ward ward;
    ward.found();
    ward.clock.advance(logbook::Duration{120'000});
    const auto text = policyWithPar("1000000000");
    const auto file = ward.folder.write("large.toml", text);
    const auto writer = ward.as("mt");
    const auto unchanged = ward.bytes();
    const auto adopted = station::adopt(ward.surroundings, ward.logbook, {writer, file});
    REQUIRE_FALSE(adopted);
    CHECK(adopted.error().code == "adopt.bad_rulebook");
    CHECK(adopted.error().details ==
          std::vector<std::string>{"Line 6, column 7, groups.adult.par: the number is greater than "
                                   "999. Write a whole number from 0 to 999."});
    const auto line = logbook::json::canonical(adoptionOf(text)) + "\n";
    const auto imported =
        station::importFiles(ward.surroundings, ward.logbook,
                             {ward.folder.write("in.jsonl", line)}, ward.importer());
    REQUIRE_FALSE(imported);
    CHECK(imported.error().code == "import.bad_rulebook");
    CHECK((ward.bytes() == unchanged));
}

TEST_CASE("An edition with more than is taken is of no use, and a start is recorded", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    ward.clock.advance(logbook::Duration{120'000});
    REQUIRE(station::standing(ward.surroundings, ward.logbook, {}));
    keepAdoption(ward, policyWithPar("1000"));
    const auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE_FALSE(standing);
    CHECK(standing.error().code == "trouble.bad_rulebook");
    CHECK_THAT(standing.error().notice.says, Catch::Contains("er-2/1 cannot be used"));
    REQUIRE(standing.error().details.size() == 1);
    CHECK_THAT(standing.error().details[0], Catch::Contains("greater than 999"));
    CHECK(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
    const auto file = ward.folder.write("small.toml", policyWithPar("999", "3"));
    ward.clock.advance(logbook::Duration{60'000});
    REQUIRE(station::adopt(ward.surroundings, ward.logbook, {ward.as("mt"), file}));
    ward.clock.advance(logbook::Duration{60'000});
    CHECK(station::standing(ward.surroundings, ward.logbook, {}));
}
