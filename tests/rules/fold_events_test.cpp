// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every event, what it voids and what it calls for anew; `only`, `when` and `unless`.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

#include <functional>

using namespace support;

namespace {

const std::string parts = R"(
[positions.circuit]
reuse = "reusable"
[positions.sensor]
[services.yearly]
[services.repair]
)";

std::string voidedBy(const std::string& entry) {
    return bookOfLeak("voided_by = [{ " + entry + " }]", parts);
}

// Passed once, with a circuit fitted; then `act` at 10:00.
std::string statusAfter(const std::string& entry, const std::function<void(LogBuilder&)>& act) {
    LogBuilder log = logWith(voidedBy(entry), {"co2"});
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).at("09:50").pass("leak");
    log.on(device).at("09:55").note();
    act(log);
    return status(assessed(log));
}

void fitSensor(LogBuilder& log) { log.on(device).fit("sensor"); }
void fitCircuit(LogBuilder& log) { log.on(device).fit("circuit"); }
void removeCircuit(LogBuilder& log) { log.on(device).remove("circuit"); }
void soil(LogBuilder& log) { log.on(device).soil(); }

struct EventCase {
    std::string event;       // voids by itself, and with "*" for its subject
    std::string otherEvent;  // does not
    std::function<void(LogBuilder&)> act;
};

}  // namespace

TEST_CASE("every event voids the checks that name it and no others", "[unit]") {
    const std::vector<EventCase> cases{
        {"fit sensor", "fit circuit", fitSensor},
        {"fit circuit", "remove circuit", fitCircuit},
        {"remove circuit", "remove sensor", removeCircuit},
        {"change circuit", "change sensor", removeCircuit},
        {"change sensor", "change circuit", fitSensor},
        {"reprocess circuit", "reprocess sensor",
         [](LogBuilder& log) { log.on(device).reprocess({"circuit"}); }},
        {"group", "move", [](LogBuilder& log) { log.on(device).group("pediatric"); }},
        {"power_on", "power_off", [](LogBuilder& log) { log.on(device).power(true); }},
        {"power_off", "use_end",
         [](LogBuilder& log) {
             log.on(device).power(true);
             log.on(device).power(false);
         }},
        {"use_start", "use_end", [](LogBuilder& log) { log.on(device).useStart(); }},
        {"use_pause", "use_resume",
         [](LogBuilder& log) {
             log.on(device).useStart();
             log.on(device).usePause();
         }},
        {"use_resume", "use_end",
         [](LogBuilder& log) {
             log.on(device).useStart();
             log.on(device).usePause();
             log.on(device).useResume();
         }},
        {"use_end", "use_pause",
         [](LogBuilder& log) {
             log.on(device).useStart();
             log.on(device).useEnd();
         }},
        {"soil", "use_start", soil},
        {"alarm tech_1", "alarm tech_2", [](LogBuilder& log) { log.on(device).alarm("tech_1"); }},
        {"fault fan", "fault screen", [](LogBuilder& log) { log.on(device).fault("fan"); }},
        {"clear fan", "clear screen",
         [](LogBuilder& log) {
             log.on(device).fault("fan");
             log.on(device).clear("fan");
         }},
        {"service yearly", "service repair",
         [](LogBuilder& log) { log.on(device).service("yearly", "fail"); }},
        {"release repair", "release incident",
         [](LogBuilder& log) {
             log.on(device).withdraw("repair");
             log.on(device).release("repair");
         }},
        {"move", "software", [](LogBuilder& log) { log.on(device).move("Store"); }},
        {"software", "move", [](LogBuilder& log) { log.on(device).software("2"); }},
    };
    for (const auto& each : cases) {
        CAPTURE(each.event);
        CHECK(statusAfter("event = \"" + each.event + "\"", each.act) == "due");
        CHECK(statusAfter("event = \"" + each.otherEvent + "\"", each.act) == "current");
        const auto blank = each.event.find(' ');
        if (blank == std::string::npos) continue;
        const std::string any = each.event.substr(0, blank) + " *";
        CHECK(statusAfter("event = \"" + any + "\"", each.act) == "due");
    }
}

TEST_CASE("what is without effect voids nothing", "[unit]") {
    const auto nothing = [](LogBuilder& log) {
        log.on(device).remove("sensor");
        log.on(device).power(false);
        log.on(device).group("adult");
        log.on(device).usePause();
        log.on(device).useResume();
        log.on(device).useEnd();
        log.on(device).clear("fan");
        log.on(device).release("repair");
        log.on(device).service("yearly", "deferred");
        log.on(device).withdraw("repair");
        log.on(device).sighted("Store");
    };
    for (const std::string event :
         {"remove *", "change *", "power_off", "group", "use_pause", "use_resume", "use_end",
          "clear *", "release *", "service *", "fault *", "move"}) {
        CAPTURE(event);
        CHECK(statusAfter("event = \"" + event + "\"", nothing) == "current");
    }
}

TEST_CASE("a record voids on the state after its effect", "[unit]") {
    const std::string whenInUse = R"(, when = { "in_use" = true })";
    const auto use = [](LogBuilder& log) {
        log.on(device).useStart();
        log.on(device).usePause();
    };
    CHECK(statusAfter("event = \"use_start\"" + whenInUse, use) == "due");
    CHECK(statusAfter("event = \"use_pause\"" + whenInUse, use) == "current");
    const std::string whenEmpty =
        R"(event = "remove circuit", when = { "circuit.fitted" = false })";
    CHECK(statusAfter(whenEmpty, removeCircuit) == "due");
    const std::string whenPediatric = R"(event = "group", when = { "group" = "pediatric" })";
    const auto select = [](LogBuilder& log) { log.on(device).group("pediatric"); };
    CHECK(statusAfter(whenPediatric, select) == "due");
}

TEST_CASE("when and unless", "[unit]") {
    const std::string event = R"(event = "soil", )";
    CHECK(statusAfter(event + R"(when = { "feature.co2" = true })", soil) == "due");
    CHECK(statusAfter(event + R"(when = { "feature.co2" = false })", soil) == "current");
    CHECK(statusAfter(event + R"(unless = { "feature.co2" = true })", soil) == "current");
    CHECK(statusAfter(event + R"(unless = { "feature.co2" = false })", soil) == "due");
    const std::string both = R"(when = { "feature.co2" = true }, unless = { "model" = "Larch" })";
    CHECK(statusAfter(event + both, soil) == "current");
    // What the part does not state holds in `when` and does not in `unless`.
    CHECK(statusAfter(event + R"(when = { "circuit.layout" = "coaxial" })", soil) == "due");
    CHECK(statusAfter(event + R"(unless = { "circuit.layout" = "coaxial" })", soil) == "due");
    // Of an empty position nothing holds.
    CHECK(statusAfter(event + R"(when = { "sensor.layout" = "coaxial" })", soil) == "current");
    CHECK(statusAfter(event + R"(unless = { "sensor.layout" = "coaxial" })", soil) == "due");
}

TEST_CASE("one entry that holds is enough", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        R"(voided_by = [{ event = "soil", when = { "feature.co2" = true } },
                        { event = "soil" }])"));
    log.on(device).pass("leak");
    log.on(device).soil();
    CHECK(status(assessed(log)) == "due");
}

TEST_CASE("only a new part", "[unit]") {
    LogBuilder log = logWith(voidedBy(R"(event = "fit circuit", only = "new_part")"));
    const auto fitted = [&log](json::Object part) {
        log.on(device).fit("circuit", std::move(part));
        return status(assessed(log));
    };
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).pass("leak");
    CHECK(fitted({{"serial", "C1"}}) == "current");
    CHECK(fitted({{"serial", "C2"}}) == "due");
    CHECK(fitted({{"serial", "C1"}}) == "due");  // that does not undo it
    log.on(device).fail("leak");
    log.on(device).fit("circuit", {{"serial", "C2"}});
    log.on(device).check("leak", "incomplete");
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).pass("leak");
    CHECK(status(assessed(log)) == "current");
    CHECK(fitted({{"serial", "C2"}}) == "due");  // was there at a failure, at no counted pass
    log.on(device).pass("leak");
    CHECK(fitted({{"serial", "C1"}}) == "current");  // both have been there now
    CHECK(fitted({{"serial", "C2"}}) == "current");
    CHECK(fitted({}) == "due");  // without a serial it is always new
    log.on(device).pass("leak");
    CHECK(fitted({}) == "due");
}

TEST_CASE("a part is new to each device and each check", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        R"(voided_by = [{ event = "fit circuit", only = "new_part" }])",
        "[positions.circuit]\n[checks.zero]\ntakes = \"PT1M\"\n"
        "voided_by = [{ event = \"fit *\", only = \"new_part\" }]\n"));
    log.on("KB-2").enrol({"adult"});
    log.on("KB-2").pass("leak");
    log.on("KB-2").pass("zero");
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).pass("leak");
    log.on("KB-2").fit("circuit", {{"serial", "C1"}});
    CHECK(status(assessed(log, Asked{.device = "KB-2"})) == "due");
    log.on(device).pass("zero");
    log.on(device).fit("circuit", {{"serial", "C1"}});
    CHECK(status(assessed(log)) == "current");
    CHECK(status(assessed(log), "zero") == "due");
    log.on(device).pass("zero");
    log.on(device).fit("circuit", {{"serial", "C1"}});
    CHECK(status(assessed(log), "zero") == "current");
}

TEST_CASE("only if an attribute differs", "[unit]") {
    const std::string entry = R"(event = "fit circuit", only = "different layout")";
    const auto afterFits = [&entry](json::Object first, json::Object second) {
        LogBuilder log = logWith(voidedBy(entry));
        log.on(device).fit("circuit", std::move(first));
        log.on(device).pass("leak");
        log.on(device).remove("circuit");
        log.on(device).fit("circuit", std::move(second));
        return status(assessed(log));
    };
    CHECK(afterFits({{"layout", "coaxial"}}, {{"layout", "coaxial"}}) == "current");
    CHECK(afterFits({{"layout", "coaxial"}}, {{"layout", "twin"}}) == "due");
    CHECK(afterFits({{"layout", "coaxial"}}, {}) == "due");
    CHECK(afterFits({}, {{"layout", "coaxial"}}) == "due");
    CHECK(afterFits({}, {}) == "due");

    LogBuilder log = logWith(voidedBy(entry));
    log.on(device).pass("leak");
    log.on(device).fit("circuit", {{"layout", "coaxial"}});
    CHECK(status(assessed(log)) == "due");  // the position held none before
}

TEST_CASE("the last part counts as it was then", "[unit]") {
    LogBuilder log = logWith(voidedBy(R"(event = "fit circuit", only = "different layout")"));
    log.on(device).fit("circuit", {{"serial", "C1"}, {"layout", "coaxial"}});
    log.on("KB-2").enrol({"adult"});
    log.on("KB-2").fit("circuit", {{"serial", "C1"}, {"layout", "twin"}});
    log.on(device).pass("leak");
    log.on(device).fit("circuit", {{"layout", "coaxial"}});
    CHECK(status(assessed(log)) == "current");
    log.on(device).fit("circuit", {{"serial", "C1"}});
    CHECK(status(assessed(log)) == "due");
}

TEST_CASE("attributes that have a place of their own differ too", "[unit]") {
    const auto after = [](const std::string& attribute, json::Object first, json::Object second) {
        LogBuilder log =
            logWith(voidedBy(R"(event = "fit circuit", only = "different )" + attribute + '"'));
        log.on(device).fit("circuit", std::move(first));
        log.on(device).pass("leak");
        log.on(device).fit("circuit", std::move(second));
        return status(assessed(log));
    };
    // The position says reusable; a part's own reuse wins.
    CHECK(after("reuse", {}, {}) == "current");
    CHECK(after("reuse", {}, {{"reuse", "reusable"}}) == "current");
    CHECK(after("reuse", {}, {{"reuse", "single_use"}}) == "due");
    CHECK(after("reuse", {{"reuse", "single_use"}}, {{"reuse", "single_use"}}) == "current");
    CHECK(after("expires", {{"expires", "2026-05-01"}}, {{"expires", "2026-05-01"}}) == "current");
    CHECK(after("expires", {{"expires", "2026-05-01"}}, {{"expires", "2026-05-02"}}) == "due");
    CHECK(after("expires", {}, {}) == "due");
    const auto adults = list({"adult"});
    CHECK(after("groups", {{"groups", adults}}, {{"groups", adults}}) == "current");
    const auto both = list({"adult", "neonatal"});
    CHECK(after("groups", {{"groups", adults}}, {{"groups", both}}) == "due");
    CHECK(after("groups", {}, {{"groups", adults}}) == "due");
    CHECK(after("lot", {{"lot", "L1"}}, {{"lot", "L1"}}) == "current");
}

TEST_CASE("events that call for a service", "[unit]") {
    LogBuilder log = logWith(book(
        "[services.test]\ndue_after = [\"clear *\", \"service other\"]\n[services.other]\n"
        "[services.itself]\ndue_after = [\"service itself\"]\n"));
    log.on(device).fault("fan");
    CHECK(findings(assessed(log)) == "fault fan");
    const auto cleared = log.on(device).clear("fan");
    CHECK(findings(assessed(log)) == "service_outstanding test");
    CHECK(restsOn(finding(assessed(log), "service_outstanding test")) == toText(cleared));
    log.on(device).service("test", "fail");
    CHECK(findings(assessed(log)) == "service_failed test, service_outstanding test");
    log.on(device).service("test");
    CHECK(findings(assessed(log)).empty());
    log.on(device).service("other", "deferred");
    CHECK(findings(assessed(log)).empty());
    log.on(device).service("other");
    CHECK(findings(assessed(log)) == "service_outstanding test");
    // A pass is not after itself.
    log.on(device).service("itself");
    CHECK(findings(assessed(log)) == "service_outstanding test");
    log.on(device).service("itself", "fail");
    CHECK(findings(assessed(log)) ==
          "service_failed itself, service_outstanding itself, service_outstanding test");
}
