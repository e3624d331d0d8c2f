// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit for the Bedside desk: who it is, the rows in their order, and what each asks for.
#include "report/bedside.h"

#include "report/bedside_rows.h"
#include "report/small_log.h"

#include <catch2/catch.hpp>

namespace {

using report::RowPart;

const words::Words& english() {
    return *words::Words::builtIn();
}

report::Bedside bedsideOf(const sample::Scene& scene, const std::string& device = "KB-0142",
                          report::Provenance provenance = {}) {
    report::BedsideQuestion question{{device, scene.asked, scene.group}};
    question.takenOut =
        report::takenOutUnused(scene.log, scene.state, {scene.asked, rules::unlimited}, device);
    auto made = report::makeBedside(scene.state, scene.lookup(), question, std::move(provenance),
                                    english());
    REQUIRE(made);
    return std::move(*made);
}

std::vector<std::string> keysOf(const report::Bedside& bedside, RowPart part) {
    std::vector<std::string> keys;
    for (const auto& row : bedside.rows)
        if (row.part == part) keys.push_back(row.key);
    return keys;
}

const report::BedsideRow& rowOf(const report::Bedside& bedside, const std::string& key) {
    const auto found = std::find_if(bedside.rows.begin(), bedside.rows.end(),
                                    [&](const auto& row) { return row.key == key; });
    INFO("row " << key);
    REQUIRE(found != bedside.rows.end());
    return *found;
}

using Keys = std::vector<std::string>;

// The circuit was changed, and a new oxygen sensor went in.
sample::Story changed() {
    sample::Story story;
    story.ready().fit("10 13:05", "oxygen_sensor", R"("serial":"O2-9")");
    return story.fit("10 13:06", "circuit", R"("lot":"4472")");
}

}  // namespace

TEST_CASE("the bar tells the unit, its place, its group and its verdict", "[unit]") {
    sample::Story story;
    story.ready();
    const auto identity = bedsideOf(sample::Scene(story, "10 12:00")).identity;
    CHECK(identity.device == "KB-0142");
    CHECK(identity.serial == "KB-0142");
    CHECK(identity.asset == "A-0142");
    CHECK(identity.label == "ICU-07");
    CHECK(identity.model == "Larch 3");
    CHECK(identity.place == "ICU");
    CHECK(identity.location == "ICU");
    CHECK(identity.groupText == "Adult");
    CHECK(identity.groupAskedText.empty());
    CHECK(identity.verdict == rules::Verdict::Ready);
    CHECK(identity.verdictWord == "ready");
    CHECK(identity.verdictText == "ready for Adult");
    CHECK(identity.readyUntil == sample::local("11 08:00"));
    CHECK(identity.readyUntilText == "Ready until 11 Nov 08:00, if nothing further is recorded.");
    CHECK(identity.isOn);
    CHECK_FALSE(identity.inUse);
    CHECK(identity.sheets.empty());
}

TEST_CASE("the way to ready is rows with clock time and minutes to go", "[unit]") {
    const auto bedside = bedsideOf(sample::Scene(changed(), "10 13:10"));
    CHECK(keysOf(bedside, RowPart::Done) ==
          Keys{"done alarm_test", "done battery", "done bedside"});
    CHECK(keysOf(bedside, RowPart::Step) == Keys{"check leak", "check oxygen_cal"});
    const auto& calibration = rowOf(bedside, "check oxygen_cal");
    CHECK(calibration.startText == "13:35, in 25 min");
    CHECK(calibration.start == sample::local("10 13:35"));
    CHECK(calibration.notBefore == sample::local("10 13:35"));
    CHECK(calibration.status == rules::CheckStatus::Due);
    REQUIRE(bedside.next);
    CHECK(bedside.rows[*bedside.next].key == "check leak");
    CHECK(bedside.rows[*bedside.next].startText == "now");
    CHECK(bedside.headline == "Ready at 13:40, in 30 min.");
}
