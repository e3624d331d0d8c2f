// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The demo: valid, repeatable, inside its three months, and as varied as it is meant to be. What
// the rules make of it is asked of the rules.
#include "station/demo.h"

#include "airmuster_station_embedded.h"
#include "logbook/record_reader.h"
#include "rules/month.h"
#include "rules/rulebook_reader.h"
#include "support/zones.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

namespace {

using logbook::Duration;
using logbook::Instant;
using logbook::Kind;
using logbook::Record;

constexpr std::uint64_t seed = 26;

Duration hoursOf(std::int64_t count) {
    return {count * 3'600'000};
}

Instant instant(std::string_view text) {
    return logbook::parseInstant(text).value();
}

const rules::Zone& chicago() {
    return *support::zone("America/Chicago");
}

const Instant theEnd = instant("2026-11-25T15:20:00Z");

const std::vector<Record>& demo() {
    static const std::vector<Record> records =
        station::makeDemo(station::kestrelBay(), {seed, theEnd}, chicago());
    return records;
}

const rules::Log& demoLog() {
    static const rules::Log log(demo(), support::zones());
    return log;
}

std::string codes(const std::vector<rules::RulebookRemark>& remarks) {
    std::string text;
    for (const rules::RulebookRemark& remark : remarks) {
        text += remark.path + " line " + std::to_string(remark.line) + " " + remark.detail + "\n";
    }
    return text;
}

rules::Assessment assessed(std::string_view device) {
    static const rules::State state = demoLog().stateAt(theEnd, rules::unlimited);
    const rules::Device* const found = state.device(device);
    REQUIRE(found != nullptr);
    return rules::assess(state, *found, {theEnd});
}

std::set<std::string> findingsOf(std::string_view device) {
    std::set<std::string> texts;
    for (const rules::Finding& finding : assessed(device).findings) {
        texts.insert(toText(finding));
    }
    return texts;
}

}  // namespace

TEST_CASE("Rulebooks shipped have no fault, and only the warnings they explain", "[unit]") {
    for (const std::string_view text :
         {station::embedded::rulebooks_adult_intensive_care,
          station::embedded::rulebooks_neonatal_unit, station::embedded::rulebooks_transport,
          station::embedded::demo_kestrel_bay, station::embedded::demo_kestrel_bay_2}) {
        const rules::RulebookReading reading = rules::readRulebook(text, support::zones());
        INFO(text.substr(0, 200) << codes(reading.faults) << codes(reading.warnings));
        CHECK(reading.faults.empty());
        REQUIRE(reading.warnings.size() == 2);
        for (const rules::RulebookRemark& warning : reading.warnings) {
            CHECK(warning.code == rules::RulebookRemark::Code::NotVoidedByUseEnd);
            CHECK((warning.path.starts_with("checks.oxygen_cal") ||
                   warning.path.starts_with("checks.co2_zero")));
        }
        CHECK(text.find("EXAMPLE THAT NO ONE HAS APPROVED") != std::string_view::npos);
    }
}

TEST_CASE("The second edition of the demo asks for one check more", "[unit]") {
    namespace texts = station::embedded;
    const auto first = rules::readRulebook(texts::demo_kestrel_bay, support::zones()).rulebook;
    const auto second = rules::readRulebook(texts::demo_kestrel_bay_2, support::zones()).rulebook;
    REQUIRE(first);
    REQUIRE(second);
    CHECK(second->checks.size() == first->checks.size() + 1);
    CHECK(first->check("remote_alarm") == nullptr);
    CHECK(second->check("remote_alarm") != nullptr);
}

TEST_CASE("The same seed gives the same demo, another seed another", "[property]") {
    INFO("seed " << seed);
    const auto again = station::makeDemo(station::kestrelBay(), {seed, theEnd}, chicago());
    REQUIRE(again.size() == demo().size());
    CHECK(std::ranges::equal(again, demo(), {}, &Record::content, &Record::content));
    const auto other = station::makeDemo(station::kestrelBay(), {seed + 1, theEnd}, chicago());
    CHECK_FALSE(std::ranges::equal(other, demo(), {}, &Record::content, &Record::content));
}

TEST_CASE("Every demo is valid records, numbered without a gap, none from after the end",
          "[property]") {
    for (const auto& [drawn, end] :
         {std::pair{seed, theEnd}, std::pair{std::uint64_t{7}, instant("2027-03-20T03:00:00Z")}}) {
        INFO("seed " << drawn << " end " << logbook::toText(end));
        std::map<std::string, std::int64_t> last;
        const auto records = station::makeDemo(station::kestrelBay(), {drawn, end}, chicago());
        std::vector<std::string> wrong;
        for (const Record& record : records) {
            const bool good = logbook::readRecord(record.content).has_value() &&
                              record.name.seq == ++last[record.name.station] &&
                              record.at <= record.entered && record.entered <= end;
            if (!good) {
                wrong.push_back(record.content);
            }
        }
        CHECK(wrong == std::vector<std::string>{});
        CHECK(last.size() == 3);
        CHECK_FALSE(last.contains(std::string(station::demoStation)));
    }
}

TEST_CASE("The demo begins with its edition and its people and covers three months", "[unit]") {
    const auto& records = demo();
    REQUIRE(records.size() > 5000);
    CHECK(records[0].kind() == Kind::Adopt);
    CHECK(records[1].kind() == Kind::Person);
    CHECK(theEnd - records.front().entered > Duration{hoursOf(24 * 90).ms});
    CHECK(theEnd - records.back().entered < hoursOf(1));
    CHECK(demoLog().faults().empty());
    CHECK(demoLog().editions().size() == 2);
    const auto visitor = std::ranges::any_of(records, [](const Record& record) {
        const auto* person = std::get_if<logbook::body::Person>(&record.body);
        return person != nullptr && person->person == station::kestrelBay().visitor;
    });
    CHECK(visitor);
}

TEST_CASE("Everything that goes wrong in life goes wrong in the demo", "[unit]") {
    std::set<Kind> kinds;
    bool late = false, form = false, moved = false, unconfirmed = false, witnessed = false;
    for (const Record& record : demo()) {
        kinds.insert(record.kind());
        late = late || record.entered - record.at > hoursOf(2);
        form = form || record.form.has_value();
        moved = moved || record.movedFrom.has_value();
        unconfirmed = unconfirmed || !record.confirmed;
        witnessed = witnessed || record.witness.has_value();
    }
    CHECK(kinds.size() == static_cast<std::size_t>(logbook::kindCount));
    CHECK((late && form && moved && unconfirmed && witnessed));
}

TEST_CASE("The demo's months hold every class of start and every anomaly", "[unit]") {
    std::array<int, 5> starts{};
    std::set<rules::AnomalyCode> anomalies;
    for (const unsigned month : {8U, 9U, 10U, 11U}) {
        const auto asked = std::chrono::year(2026) / std::chrono::month(month);
        const auto answer = rules::month(demoLog(), {asked});
        REQUIRE(answer.has_value());
        for (std::size_t index = 0; index < starts.size(); ++index) {
            starts[index] += answer->starts[index];
        }
        for (const rules::MonthAnomaly& anomaly : answer->anomalies) {
            anomalies.insert(anomaly.code);
        }
    }
    for (const int count : starts) {
        CHECK(count > 0);
    }
    const int good = starts[0] + starts[1] + starts[2];
    const double compliance = static_cast<double>(good) / (good + starts[3] + starts[4]);
    CHECK(compliance > 0.84);
    CHECK(compliance < 0.97);
    CHECK(anomalies.size() == 8);
}

TEST_CASE("The demo's last board is the one that its endings set out", "[unit]") {
    const std::map<std::string, rules::Verdict> expected{
        {"ready", rules::Verdict::Ready},       {"in_use", rules::Verdict::InUse},
        {"paused", rules::Verdict::InUse},      {"incident", rules::Verdict::Withdrawn},
        {"repair", rules::Verdict::Withdrawn},  {"gone", rules::Verdict::Retired}};
    std::map<rules::Verdict, int> verdicts;
    std::map<std::string, int> ready;
    for (const station::demo::Unit& unit : station::kestrelBay().units) {
        const rules::Assessment assessment = assessed(unit.serial);
        ++verdicts[assessment.verdict];
        if (assessment.verdict == rules::Verdict::Ready) {
            ++ready[*assessment.group];
        }
        const auto known = expected.find(unit.ending);
        INFO(unit.serial << " ends " << unit.ending);
        CHECK(assessment.verdict ==
              (known == expected.end() ? rules::Verdict::NotReady : known->second));
    }
    CHECK(verdicts[rules::Verdict::Ready] == 22);
    CHECK(verdicts[rules::Verdict::InUse] == 7);
    CHECK(verdicts[rules::Verdict::NotReady] == 10);
    CHECK(verdicts[rules::Verdict::Withdrawn] == 2);
    CHECK(verdicts[rules::Verdict::Retired] == 1);
    const auto& rulebook = *demoLog().stateAt(theEnd, rules::unlimited).rulebook;
    CHECK(ready["neonatal"] < rulebook.group("neonatal")->par);
    CHECK(ready["adult"] >= rulebook.group("adult")->par);
}

TEST_CASE("KB-0142 stands there with several things at once", "[unit]") {
    const auto findings = findingsOf("KB-0142");
    for (const char* const expected :
         {"failed leak", "due flow_sensor_cal", "due oxygen_cal", "expired expiratory_filter",
          "notice n26_03", "fault fan_noise", "service_due preventive_maintenance"}) {
        INFO(expected);
        CHECK(findings.contains(expected));
    }
    for (const rules::Finding& finding : assessed("KB-0142").findings) {
        if (finding.subject == "oxygen_cal") {
            CHECK(finding.notBefore.has_value());
            REQUIRE(finding.discounted.has_value());
            CHECK(finding.discounted->reasons == std::vector<std::string>{"too_early"});
        }
        if (finding.subject == "flow_sensor_cal") {
            REQUIRE(finding.discounted.has_value());
            CHECK(finding.discounted->reasons == std::vector<std::string>{"in_line hme"});
        }
    }
}

TEST_CASE("A scenario that names what is not there is refused with all its faults", "[unit]") {
    const auto scenario =
        station::demo::readScenario({"days = 3\n", "[[units]]\nserial = 4\n", {}});
    REQUIRE_FALSE(scenario.has_value());
    CHECK(scenario.error().find("events.units.0.serial") != std::string::npos);
    CHECK(scenario.error().find("scenario.facility") != std::string::npos);
}
