// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who may write what: each kind, the exceptions, holds with their own keys, and strikes.
#include "rules/authority.h"
#include "support/rules_world.h"

#include <catch2/catch.hpp>

#include <functional>

using namespace support;

namespace {

const std::string none = " / unauthorised / without effect";

std::string bookOfAuthority(const std::string& authority, const std::string& zone = "UTC") {
    return book("[checks.leak]\ntakes = \"PT2M\"\n[checks.leak.measures.leak]\nunit = \"mL/min\"\n"
                "max = 200\n[services.yearly]\n[positions.sensor]\nreuse = \"reusable\"\n"
                "[holds.incident]\nrelease_by = [\"risk\"]\n[holds.repair]\n"
                "[holds.sealed]\nrelease_by = []\n[authority]\n" + authority,
                {"1", zone});
}

// Kim is biomed, Lee is risk, Robin has no role, Alex is not known.
LogBuilder start(const std::string& authority) {
    LogBuilder log;
    log.adopt(bookOfAuthority(authority));
    log.department().person("Kim", {"biomed"});
    log.department().by("Kim").person("Lee", {"risk"});
    log.department().by("Kim").person("Robin", {});
    log.on(device).by("Kim").enrol({"adult"});
    return log;
}

}  // namespace

TEST_CASE("every kind that may be named needs a role if it is", "[unit]") {
    using Act = std::function<void(Entry)>;
    struct Case {
        std::string kind;
        bool ofDevice;
        Act act;
    };
    const std::vector<Case> cases{
        {"adopt", false, [](Entry e) { e.adopt(bookOfAuthority("adopt = [\"biomed\"]")); }},
        {"person", false, [](Entry e) { e.person("Alex", {}); }},
        {"notice", false, [](Entry e) { e.notice("n1"); }},
        {"enrol", true, [](Entry e) { e.enrol({"adult"}); }},
        {"retire", true, [](Entry e) { e.retire(); }},
        {"reprocess", true, [](Entry e) { e.reprocess({"sensor"}); }},
        {"reprocess", false, [](Entry e) { e.reprocessPart("sensor", "S1"); }},
        {"check", true, [](Entry e) { e.pass("leak"); }},
        {"clear", true, [](Entry e) { e.clear("fan"); }},
        {"release", true, [](Entry e) { e.release("repair"); }},
        {"waive", true, [](Entry e) { e.waive("service_overdue", "yearly", "23:00"); }},
        {"notice_done", true, [](Entry e) { e.noticeDone("n1"); }},
        {"service", true, [](Entry e) { e.service("yearly"); }},
        {"review", true, [](Entry e) {
             e.write("review", {{"target", "icu-1/1"}, {"disposition", "seen"}, {"text", ""}});
         }},
        {"sign", false, [](Entry e) {
             e.write("sign", {{"scope", "month"}, {"known_at", "2026-03-02T08:00:00Z"},
                              {"digest", "00"}, {"heads", json::Object{}}});
         }},
    };
    for (const auto& each : cases) {
        CAPTURE(each.kind, each.ofDevice);
        for (const std::string person : {"Robin", "Alex", "Lee", "Kim"}) {
            CAPTURE(person);
            const auto unauthorised = [&](const std::string& authority) {
                LogBuilder log = start(authority);
                Entry entry = each.ofDevice ? log.on(device) : log.department();
                each.act(entry.by(person));
                return did(log) == none;
            };
            CHECK(unauthorised(each.kind + " = [\"manager\", \"biomed\"]") == (person != "Kim"));
            CHECK_FALSE(unauthorised(""));  // not named: anyone
        }
    }
}

TEST_CASE("what warns of danger counts whoever writes it", "[unit]") {
    LogBuilder log = start("check = [\"biomed\"]\nservice = [\"biomed\"]\nclear = [\"biomed\"]\n");
    log.on(device).by("Alex").fault("fan");
    CHECK(did(log) == "KB-1 fault fan /  / effective");
    log.on(device).by("Alex").withdraw("repair");
    log.on(device).by("Alex").soil();
    log.on(device).by("Alex").alarm("tech_1");
    CHECK(did(log) == "KB-1 alarm tech_1 /  / effective");
    log.on(device).by("Alex").fail("leak");
    CHECK(did(log) == " /  / effective");
    CHECK(status(assessed(log)) == "failed");
    log.on(device).by("Alex").service("yearly", "fail");
    CHECK(did(log) == "KB-1 service yearly /  / effective");
    log.on(device).by("Alex").pass("leak");
    CHECK(did(log) == none);
    log.on(device).by("Alex").service("yearly");
    CHECK(did(log) == none);
    log.on(device).by("Alex").service("yearly", "deferred");
    CHECK(did(log) == none);
    log.on(device).by("Alex").check("leak", "incomplete");
    CHECK(did(log) == none);
    log.on(device).by("Alex").clear("fan");
    CHECK(did(log) == none);
    CHECK(findings(assessed(log)) ==
          "failed leak, fault fan, service_failed yearly, withdrawn repair");
}

TEST_CASE("a failure that only a measure shows counts too", "[unit]") {
    LogBuilder log = start("check = [\"biomed\"]\n");
    log.on(device).by("Kim").measuring("leak", 100, "mL/min").pass("leak");
    log.on(device).by("Alex").measuring("leak", 200, "mL/min").pass("leak");
    CHECK(did(log) == none);
    CHECK(status(assessed(log)) == "current");
    log.on(device).by("Alex").measuring("leak", 201, "mL/min").pass("leak");
    CHECK(did(log) == " /  / effective");
    CHECK(status(assessed(log)) == "failed");
    log.on(device).by("Alex").measuring("leak", 201, "mL/min").pass("zero");
    CHECK(did(log) == none);  // no such check
    log.on("KB-9").by("Alex").measuring("leak", 201, "mL/min").pass("leak");
    CHECK(did(log) == none);
    log.on(device).by("Kim").retire();
    log.on(device).by("Alex").measuring("leak", 201, "mL/min").pass("leak");
    CHECK(did(log) == none);
    log.on(device).by("Alex").fail("leak");
    CHECK(did(log) == " / unenrolled / without effect");
}

TEST_CASE("a failure of a check that does not apply is no failure", "[unit]") {
    LogBuilder log;
    log.adopt(bookOfLeak("applies_when = { \"feature.co2\" = true }",
                         "[checks.leak.measures.leak]\nunit = \"mL/min\"\nmax = 200\n"
                         "[authority]\ncheck = [\"biomed\"]\n"));
    log.on(device).enrol({"adult"});
    log.on(device).measuring("leak", 201, "mL/min").pass("leak");
    CHECK(did(log) == none);
}

TEST_CASE("with a form the one who did it is judged", "[unit]") {
    LogBuilder log = start("check = [\"biomed\"]\nservice = [\"biomed\"]\nclear = [\"biomed\"]\n");
    log.on(device).by("Robin").doneBy("Kim").form("7").pass("leak");
    CHECK(did(log) == " /  / effective");
    log.on(device).by("Robin").doneBy("Kim").form("7").service("yearly");
    CHECK(did(log) == "KB-1 service yearly /  / effective");
    log.on(device).by("Kim").doneBy("Robin").form("7").pass("leak");
    CHECK(did(log) == none);
    log.on(device).by("Robin").doneBy("Kim").pass("leak");
    CHECK(did(log) == none);  // no form
    log.on(device).by("Kim").doneBy("Robin").pass("leak");
    CHECK(did(log) == " /  / effective");
    log.on(device).by("Kim").form("7").pass("leak");
    CHECK(did(log) == " /  / effective");  // a form, and nobody else did it
    log.on(device).by("Robin").form("7").pass("leak");
    CHECK(did(log) == none);
    log.on(device).fault("fan");
    log.on(device).by("Robin").doneBy("Kim").form("7").clear("fan");
    CHECK(did(log) == none);  // of these two kinds only
}

TEST_CASE("roles hold through the local day of until", "[unit]") {
    LogBuilder log;
    log.adopt(bookOfAuthority("check = [\"biomed\"]\n", "America/Chicago"));
    log.department().person("Kim", {"biomed"}, "2026-03-07");
    log.on(device).enrol({"adult"});
    log.on(device).by("Kim").at("2026-03-08T05:59:59.999Z").pass("leak");
    CHECK(did(log) == " /  / effective");
    log.on(device).by("Kim").at("2026-03-08T06:00:00Z").pass("leak");
    CHECK(did(log) == none);
    log.department().at("2026-03-08T07:00:00Z").person("Kim", {"therapist", "biomed"});
    log.on(device).by("Kim").at("2026-03-20T06:00:00Z").pass("leak");
    CHECK(did(log) == " /  / effective");
    log.department().person("Kim", {"therapist"});
    log.on(device).by("Kim").pass("leak");
    CHECK(did(log) == none);  // the later record replaces the earlier
}

TEST_CASE("a person is judged by what was recorded before", "[unit]") {
    LogBuilder log;
    log.adopt(bookOfAuthority("check = [\"biomed\"]\n"));
    log.on(device).enrol({"adult"});
    log.on(device).at("09:00").by("Kim").pass("leak");
    log.department().at("09:01").person("Kim", {"biomed"});
    CHECK(status(assessed(log)) == "due");
}

TEST_CASE("the first adopt and the first person always have effect", "[unit]") {
    LogBuilder log;
    log.adopt(bookOfAuthority("adopt = [\"manager\"]\nperson = [\"manager\"]\n"));
    CHECK(did(log) == " /  / effective");
    log.adopt(bookOfAuthority("adopt = [\"manager\"]\n"));
    CHECK(did(log) == none);
    log.department().person("Kim", {"manager"});
    CHECK(did(log) == " /  / effective");
    log.department().person("Lee", {"manager"});
    CHECK(did(log) == none);
    log.department().by("Kim").person("Lee", {"manager"});
    CHECK(did(log) == " /  / effective");
    log.department().by("Lee").adopt(bookOfAuthority(""));
    CHECK(did(log) == " /  / effective");
}

TEST_CASE("a hold is released by whom it names, else by whom release names", "[unit]") {
    LogBuilder log = start("release = [\"biomed\"]\n");
    const auto released = [&log](const std::string& hold, const std::string& by) {
        log.on(device).withdraw(hold);
        log.on(device).by(by).release(hold);
        return did(log) != none;
    };
    CHECK(released("incident", "Lee"));
    CHECK_FALSE(released("incident", "Kim"));
    CHECK_FALSE(released("incident", "Robin"));
    CHECK(released("repair", "Kim"));
    CHECK_FALSE(released("repair", "Lee"));
    CHECK(released("unnamed", "Kim"));
    CHECK_FALSE(released("unnamed", "Lee"));
    CHECK_FALSE(released("sealed", "Kim"));  // an empty list: nobody
    CHECK_FALSE(released("sealed", "Lee"));
}

TEST_CASE("without any word on release anyone may, but not what a hold reserves", "[unit]") {
    LogBuilder log = start("");
    log.on(device).withdraw("repair");
    log.on(device).by("Alex").release("repair");
    CHECK(did(log) == "KB-1 release repair /  / effective");
    log.on(device).withdraw("incident");
    log.on(device).by("Alex").release("incident");
    CHECK(did(log) == none);
}

TEST_CASE("the roles that may are named, sorted", "[unit]") {
    LogBuilder log = start("check = [\"therapist\", \"biomed\"]\n");
    const auto state = stateOf(log);
    log.on(device).by("Alex").pass("leak");
    const auto permission = rules::mayWrite(state, log.records().back());
    CHECK_FALSE(permission.allowed);
    CHECK(permission.roles == Texts{"biomed", "therapist"});
    log.on(device).by("Kim").pass("leak");
    CHECK(rules::mayWrite(state, log.records().back()).allowed);
    CHECK(rules::holdsRole(state, "Kim", {"risk", "biomed"}, when("12:00")));
    CHECK_FALSE(rules::holdsRole(state, "Kim", {"risk"}, when("12:00")));
    CHECK_FALSE(rules::holdsRole(state, "Alex", {"biomed"}, when("12:00")));
    CHECK(rules::isKnown(state, "Robin", when("12:00")));
    CHECK_FALSE(rules::isKnown(state, "Alex", when("12:00")));
}

TEST_CASE("a record without the authority leaves all but the last record as it was", "[unit]") {
    LogBuilder log = start("retire = [\"biomed\"]\n");
    const auto refused = log.on(device).by("Robin").retire();
    CHECK(assessed(log).last->name == refused);
    CHECK(assessed(log).verdict != rules::Verdict::Retired);
}
