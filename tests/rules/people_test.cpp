// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who is known when, who says who holds a role, and what waits for its writer's word.
#include "rules/people.h"
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string authority =
    "[authority]\nperson = [\"lead\"]\nreview = [\"lead\", \"nurse\"]\nclear = [\"biomed\"]\n";

// Kim is lead, Lee a nurse until 3 March, Robin has no role.
LogBuilder start() {
    LogBuilder log;
    log.adopt(book(authority));
    log.department().person("Kim", {"lead"});
    log.department().by("Kim").person("Lee", {"nurse"}, "2026-03-03");
    log.department().by("Kim").person("Robin", {});
    log.on(device).by("Kim").enrol({"adult"});
    return log;
}

RecordName soiledUnsigned(LogBuilder& log, const std::string& by) {
    const auto at = logbook::toText(log.nextInstant());
    log.takeTime(log.nextInstant());
    return log.add(json::Object{{"station", "icu-1"}, {"at", at}, {"entered", at}, {"by", by},
                                {"device", device}, {"kind", "soil"}, {"confirmed", false},
                                {"body", json::Object{{"reason", "splash"}}}});
}

RecordName confirm(LogBuilder& log, const std::string& by, const RecordName& target) {
    return log.on(device).by(by).write(
        "review",
        {{"target", toText(target)}, {"disposition", "confirmed"}, {"text", ""}});
}

Texts unconfirmedIn(const LogBuilder& builder) {
    const auto log = toLog(builder);
    Texts names;
    for (const auto index : rules::unconfirmed(log)) {
        names.push_back(toText(log.records()[index].name));
    }
    return names;
}

}  // namespace

TEST_CASE("a manager is who may enter persons, while they may", "[unit]") {
    auto builder = start();
    const auto log = toLog(builder);
    const auto now = when("10:00");
    const auto people = rules::peopleAt(log, now);
    CHECK(people.persons.size() == 3);
    CHECK(people.devices.empty());
    CHECK(rules::managers(people, now) == Texts{"Kim"});
    CHECK(rules::isManager(people, "Kim", now));
    CHECK_FALSE(rules::isManager(people, "Lee", now));
    CHECK_FALSE(rules::isManager(people, "Alex", now));
    CHECK(rules::peopleAt(log, when("08:00")).persons.empty());
    builder.department().by("Kim").person("Kim", {"lead"}, "2026-03-02");
    const auto later = rules::peopleAt(toLog(builder), when("03-04 10:00"));
    CHECK_FALSE(rules::isManager(later, "Kim", when("03-04 10:00")));
}

TEST_CASE("where nobody is named for it, everybody known enters persons", "[unit]") {
    LogBuilder builder;
    builder.adopt(book("[authority]\nclear = [\"biomed\"]\n"));
    builder.department().person("Kim", {});
    const auto people = rules::peopleAt(toLog(builder), when("10:00"));
    CHECK(rules::isManager(people, "Kim", when("10:00")));
    CHECK_FALSE(rules::isManager(people, "Alex", when("10:00")));
}

TEST_CASE("the roles of an edition's authority are each named once", "[unit]") {
    auto builder = start();
    const auto log = toLog(builder);
    CHECK(rules::rolesOfAuthority(*log.firstEdition()) == Texts{"biomed", "lead", "nurse"});
    LogBuilder named;
    named.adopt(book("[holds.incident]\nrelease_by = [\"risk_manager\"]\n"
                     "[labels.roles]\nnurse = \"Nurse\"\nclerk = \"Clerk\"\n" + authority));
    CHECK(rules::rolesNamed(*toLog(named).firstEdition()) ==
          Texts{"biomed", "clerk", "lead", "nurse", "risk_manager"});
}

TEST_CASE("an unsigned entry waits for a review by its own writer, who may write one", "[unit]") {
    auto builder = start();
    const auto first = soiledUnsigned(builder, "Lee");
    const auto second = soiledUnsigned(builder, "Robin");
    builder.on(device).by("Lee").soil();
    const Texts both{toText(first), toText(second)};
    CHECK(unconfirmedIn(builder) == both);
    confirm(builder, "Kim", first);
    CHECK(unconfirmedIn(builder) == both);
    confirm(builder, "Robin", second);  // who holds no role for it
    CHECK(unconfirmedIn(builder) == both);
    CHECK(rules::confirmations(toLog(builder)).empty());
    const auto review = confirm(builder, "Lee", first);
    CHECK(unconfirmedIn(builder) == Texts{toText(second)});
    const auto log = toLog(builder);
    const auto confirmed = rules::confirmations(log);
    REQUIRE(confirmed.size() == 1);
    CHECK(confirmed.begin()->first == log.find(first));
    CHECK(confirmed.begin()->second == log.find(review));
    builder.on(device).by("Lee").strike(review);
    CHECK(unconfirmedIn(builder) == both);
    builder.on(device).by("Robin").strike(second);
    CHECK(unconfirmedIn(builder) == Texts{toText(first)});
    // After the last day of their role a word is nobody's.
    builder.on(device).by("Lee").at("03-05 10:00").write(
        "review", {{"target", toText(first)}, {"disposition", "confirmed"}, {"text", ""}});
    CHECK(unconfirmedIn(builder) == Texts{toText(first)});
}

TEST_CASE("without an edition an unsigned entry waits for its writer's review alone", "[unit]") {
    LogBuilder builder;
    const auto first = soiledUnsigned(builder, "Lee");
    CHECK(unconfirmedIn(builder) == Texts{toText(first)});
    confirm(builder, "Lee", first);
    CHECK(unconfirmedIn(builder).empty());
}
