// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a check asserts and asks for, values judged before they are kept, and the set-up as shown.
#include "report/bedside_acts.h"

#include "report/bedside_setup.h"
#include "report/small_log.h"

#include <catch2/catch.hpp>
#include <limits>

namespace {

using Standing = report::MeasureJudgement::Standing;
using Texts = std::vector<std::string>;

report::CheckToLog logged(const sample::Scene& scene, const std::string& check) {
    return report::checkToLog(scene.context(), *scene.state.rulebook->check(check));
}

sample::Scene ready() {
    sample::Story story;
    story.ready();
    return {story, "10 12:00"};
}

report::MeasureJudgement judged(const report::CheckToLog& check, double value,
                                std::string_view unit) {
    return report::judge(*words::Words::builtIn(), check.measures.at(0), value, unit);
}

const report::SetupPosition& positionOf(const std::vector<report::SetupPosition>& setup,
                                        const std::string& key) {
    const auto found = std::find_if(setup.begin(), setup.end(),
                                    [&](const auto& position) { return position.key == key; });
    REQUIRE(found != setup.end());
    return *found;
}

}  // namespace

TEST_CASE("a check tells what a pass asserts and which values it takes", "[unit]") {
    const auto scene = ready();
    const auto alarm = logged(scene, "alarm_test");
    CHECK(alarm.label == "Alarm test");
    REQUIRE(alarm.conditions.size() == 1);
    CHECK(alarm.conditions[0].key == "mains_power");
    CHECK(alarm.conditions[0].label == "Mains power");
    CHECK(alarm.asserts == "Passed, mains power");
    CHECK(alarm.failed == "Failed");
    CHECK(alarm.needsSecond);
    CHECK(alarm.measures.empty());

    const auto leak = logged(scene, "leak");
    CHECK(leak.asserts == "Passed");
    CHECK_FALSE(leak.needsSecond);
    CHECK(leak.group == "adult");
    CHECK_FALSE(leak.groupFirst);
    REQUIRE(leak.measures.size() == 1);
    CHECK(leak.measures[0].max == 200);
    CHECK_FALSE(leak.measures[0].min);
    CHECK(leak.measures[0].limits == "at most 200 mL/min for Adult");
    CHECK(leak.measures[0].outside == "Outside these limits the check has failed.");
    CHECK_FALSE(leak.measures[0].required);

    const auto battery = logged(scene, "battery");
    CHECK(battery.measures.at(0).required);
    CHECK(battery.measures[0].limits == "at least 90 %");
    CHECK(battery.measures[0].outside == "Outside these limits the attempt does not count.");
}

TEST_CASE("a value is judged before it is kept, limits inclusive", "[unit]") {
    const auto leak = logged(ready(), "leak");
    CHECK(judged(leak, 200, "mL/min").standing == Standing::Within);
    CHECK(judged(leak, 200, "mL/min").sentence.empty());
    CHECK(judged(leak, 200.00000001, "mL/min").standing == Standing::Within);
    const auto over = judged(leak, 210, "mL/min");
    CHECK(over.standing == Standing::Fails);
    CHECK(over.sentence == "210 mL/min is over the limit of 200. The check has failed.");
    const auto litres = judged(leak, 0.18, "L/min");
    CHECK(litres.standing == Standing::Within);
    CHECK(litres.value == Approx(180));
    const auto overInLitres = judged(leak, 0.21, "L/min");
    CHECK(overInLitres.standing == Standing::Fails);
    CHECK(overInLitres.sentence == "0.21 L/min is over the limit of 0.2. The check has failed.");
    const auto pressure = judged(leak, 20, "kPa");
    CHECK(pressure.standing == Standing::OtherDimension);
    CHECK(pressure.sentence == "Leak: kPa measures something else. Enter it in mL/min.");
    CHECK(judged(leak, std::numeric_limits<double>::quiet_NaN(), "mL/min").standing ==
          Standing::NotANumber);

    const auto low = judged(logged(ready(), "battery"), 62, "%");
    CHECK(low.standing == Standing::DoesNotCount);
    CHECK(low.sentence == "62 % is under the limit of 90. This attempt does not count.");
    CHECK(judged(logged(ready(), "battery"), 0.95, "fraction").standing == Standing::Within);
}

TEST_CASE("before a group is selected a value by group does not count", "[unit]") {
    sample::Story story;
    story.tell("10 07:00", "enrol",
               R"({"model":"Larch 3","groups":["adult","neonatal"],"features":[],)"
               R"("commissioned":"2026-06-01"})");
    const auto leak = logged({story, "10 12:00"}, "leak");
    CHECK_FALSE(leak.group);
    CHECK(leak.measures.at(0).noLimitForGroup);
    const auto judgement = judged(leak, 20, "mL/min");
    CHECK(judgement.standing == Standing::DoesNotCount);
    CHECK(judgement.sentence ==
          "No limit before a group is selected: with a value the attempt does not count.");
}

TEST_CASE("what is judged before is what the rules judge after", "[exhaustive]") {
    // Every value about the limits of each group, kept as typed and folded.
    for (const std::string group : {"adult", "pediatric", "neonatal"}) {
        for (const int value : {0, 49, 50, 51, 99, 100, 101, 199, 200, 201, 5000}) {
            sample::Story story;
            story.ready().tell("10 12:00", "group", R"({"group":")" + group + R"("})");
            story.fit("10 12:01", "flow_sensor", R"("groups":[")" + group + R"("])");
            story.fit("10 12:02", "circuit", "");
            const sample::Scene before(story, "10 12:05");
            const auto said = judged(logged(before, "leak"), value, "mL/min").standing;
            story.pass("10 12:10", "leak", R"(,"measures":{"leak":{"value":)" +
                                               std::to_string(value) + R"(,"unit":"mL/min"}})");
            const sample::Scene after(story, "10 12:15");
            const auto& check = after.state.device("KB-0142")->checks.at("leak");
            INFO(group << " " << value);
            CHECK(check.lastFailed == (said == Standing::Fails));
            CHECK((check.last && check.last->at == after.asked - logbook::Duration{300'000}));
        }
    }
}

TEST_CASE("numbers are typed with a point or a comma", "[unit]") {
    CHECK(report::typedNumber("42") == 42);
    CHECK(report::typedNumber(" 0,18 ") == 0.18);
    CHECK(report::typedNumber("0.18") == 0.18);
    CHECK(report::typedNumber("-3") == -3);
    CHECK(report::typedNumber("+3") == 3);
    for (const auto* text : {"", " ", "1,2,3", "1e5", "inf", "nan", "4 2", "12 mL", "."}) {
        INFO(text);
        CHECK_FALSE(report::typedNumber(text));
    }
}

TEST_CASE("the set-up tells every position, what is in it and what is wrong", "[unit]") {
    sample::Story story;
    story.ready().fit("10 09:00", "exhalation_valve", R"("serial":"EV-1","model":"Brook")");
    story.fit("10 09:00", "expiratory_filter",
              R"("lot":"F-2","expires":"2026-11-09","layout":"coaxial")");
    story.tell("10 10:00", "use_start").tell("10 11:00", "use_end");
    story.tell("10 11:30", "reprocess", R"({"positions":["exhalation_valve"],"level":"high"})");
    const sample::Scene scene(story, "10 12:00");
    const auto setup = report::makeSetup(scene.context(), scene.assess());
    CHECK(setup.size() == scene.state.rulebook->positions.size());
    CHECK(std::is_sorted(setup.begin(), setup.end(),
                         [](const auto& a, const auto& b) { return a.label < b.label; }));

    const auto& sensor = positionOf(setup, "flow_sensor");
    CHECK(sensor.required);
    REQUIRE(sensor.fitted);
    CHECK(sensor.fitted->serial == "FS-1");
    CHECK(sensor.fitted->since == "07:20");
    CHECK(sensor.fitted->fittedAt == sample::local("10 07:20"));
    CHECK(sensor.fitted->groups == "Adult and Pediatric");
    CHECK(sensor.fitted->life == "used since 10:00");
    CHECK(sensor.wrong == Texts{"flow sensor needs reprocessing"});
    CHECK(sensor.canReprocess);
    CHECK(sensor.levelText == "high-level disinfection");

    const auto& valve = positionOf(setup, "exhalation_valve");
    CHECK_FALSE(valve.required);
    CHECK(valve.fitted->name == "EV-1, Brook");
    CHECK(valve.fitted->life == "not used, reprocessed: 1");
    CHECK(valve.fitted->reprocessed == 1);
    CHECK(valve.wrong.empty());

    const auto& filter = positionOf(setup, "expiratory_filter");
    CHECK(filter.fitted->lot == "F-2");
    CHECK(filter.fitted->expires == "9 Nov");
    CHECK(filter.fitted->further ==
          std::vector<std::pair<std::string, std::string>>{{"layout", "coaxial"}});
    CHECK(filter.wrong.size() == 2);
    CHECK_FALSE(filter.canReprocess);

    const auto& hme = positionOf(setup, "hme");
    CHECK(hme.choice == "Humidification");
    CHECK_FALSE(hme.fitted);
}

TEST_CASE("a part under a stop-use notice is wrong in its position", "[unit]") {
    sample::Story story;
    story.ready().as("lead").tell(
        "10 12:00", "notice",
        R"({"key":"n26_03","title":"Connector may crack","action":"stop_use",)"
        R"("match":{"lots":["4471"]}})",
        "");
    const sample::Scene scene(story, "10 12:30");
    const auto setup = report::makeSetup(scene.context(), scene.assess());
    CHECK(positionOf(setup, "circuit").wrong.size() == 1);
    CHECK(positionOf(setup, "flow_sensor").wrong.empty());
}

TEST_CASE("a value that nothing measured can be is told, whatever the limits say", "[unit]") {
    const auto leak = logged(ready(), "leak");
    const auto negative = judged(leak, -0.005, "L/min");
    CHECK(negative.standing == Standing::Impossible);
    CHECK(negative.isImpossible);
    CHECK(negative.sentence == "Leak cannot be -0.005 L/min: it is never less than 0 L/min.");
    const auto battery = logged(ready(), "battery");
    CHECK(judged(battery, 150, "%").sentence ==
          "Charge cannot be 150 %: it is never more than 100 %.");
    CHECK(judged(battery, 100, "%").standing == Standing::Within);
    // What the edition makes of it stands beside.
    const auto low = judged(battery, -1, "%");
    CHECK(low.standing == Standing::DoesNotCount);
    CHECK(low.isImpossible);
    CHECK(low.sentence ==
          "Charge cannot be -1 %: it is never less than 0 %. "
          "-1 % is under the limit of 90. This attempt does not count.");
}

TEST_CASE("a minus is offered only where a value below 0 is to be thought of", "[unit]") {
    report::AskedMeasure pressure;
    pressure.unit = "cmH2O";
    CHECK(report::mayBeNegative(pressure));
    pressure.min = 30;
    pressure.max = 40;
    CHECK_FALSE(report::mayBeNegative(pressure));
    pressure.min = -2;
    CHECK(report::mayBeNegative(pressure));
    report::AskedMeasure flow;
    flow.unit = "L/min";
    flow.possible.least = 0;
    CHECK_FALSE(report::mayBeNegative(flow));
}

TEST_CASE("what an entry must state is told by its kind", "[unit]") {
    using logbook::Kind;
    CHECK(report::mustBeAnswered(Kind::Service, "service"));
    CHECK(report::mustBeAnswered(Kind::Service, "outcome"));
    CHECK(report::mustBeAnswered(Kind::Waive, "reason"));
    CHECK_FALSE(report::mustBeAnswered(Kind::Withdraw, "reason"));
    CHECK(report::mustBeAnswered(Kind::Withdraw, "hold"));
    CHECK(report::mustBeAnswered(Kind::Note, "text"));
    CHECK_FALSE(report::mustBeAnswered(Kind::Fault, "text"));
    // Ventilating a patient waits for no answer, but for whether the use before it is over.
    CHECK_FALSE(report::mustBeAnswered(Kind::UseStart, "group"));
    CHECK_FALSE(report::mustBeAnswered(Kind::UseStart, "location"));
    CHECK(report::mustBeAnswered(Kind::UseStart, "before"));
}
