// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of events and which happening a pattern names.
#include "rules/condition.h"

#include <catch2/catch.hpp>

#include <set>

using rules::Event;
using rules::EventKind;
using rules::matches;
using rules::parseEvent;

namespace {

const std::vector<std::pair<std::string, Event>> everyEvent{
    {"fit flow_sensor", {EventKind::Fit, "flow_sensor"}},
    {"remove hme", {EventKind::Remove, "hme"}},
    {"change circuit", {EventKind::Change, "circuit"}},
    {"reprocess exp_valve2", {EventKind::Reprocess, "exp_valve2"}},
    {"group", {EventKind::Group, ""}},
    {"power_on", {EventKind::PowerOn, ""}},
    {"power_off", {EventKind::PowerOff, ""}},
    {"use_start", {EventKind::UseStart, ""}},
    {"use_pause", {EventKind::UsePause, ""}},
    {"use_resume", {EventKind::UseResume, ""}},
    {"use_end", {EventKind::UseEnd, ""}},
    {"soil", {EventKind::Soil, ""}},
    {"alarm technical", {EventKind::Alarm, "technical"}},
    {"fault fan", {EventKind::Fault, "fan"}},
    {"clear *", {EventKind::Clear, "*"}},
    {"service maintenance", {EventKind::Service, "maintenance"}},
    {"release incident", {EventKind::Release, "incident"}},
    {"move", {EventKind::Move, ""}},
    {"software", {EventKind::Software, ""}},
};

}  // namespace

TEST_CASE("Every event is read and written alike", "[exhaustive]") {
    std::set<EventKind> kinds;
    for (const auto& [text, event] : everyEvent) {
        INFO(text);
        CHECK(parseEvent(text) == event);
        CHECK(toText(event) == text);
        CHECK(rules::takesSubject(event.kind) == !event.subject.empty());
        kinds.insert(event.kind);
    }
    CHECK(kinds.size() == static_cast<std::size_t>(EventKind::Software) + 1);
}

TEST_CASE("Events of a position are fit, remove, change and reprocess", "[exhaustive]") {
    for (const auto& [text, event] : everyEvent) {
        INFO(text);
        const std::set<EventKind> wanted{EventKind::Fit, EventKind::Remove, EventKind::Change,
                                         EventKind::Reprocess};
        CHECK(rules::ofPosition(event.kind) == wanted.contains(event.kind));
    }
}

TEST_CASE("Other texts are no events", "[unit]") {
    for (const std::string text :
         {"", " ", "fit", "fit ", "fit  hme", " fit hme", "fit hme ", "Fit hme", "fit Hme",
          "fit hme hme", "fit **", "use_end *", "use_end ", "group adult", "power", "use_stop",
          "fit 1st", "clear fan,pump", "soil x", "fit\thme"}) {
        INFO(text);
        CHECK_FALSE(parseEvent(text).has_value());
    }
}

TEST_CASE("A pattern names its own kind and subject", "[unit]") {
    CHECK(matches({EventKind::Fit, "hme"}, {EventKind::Fit, "hme"}));
    CHECK_FALSE(matches({EventKind::Fit, "hme"}, {EventKind::Fit, "circuit"}));
    CHECK_FALSE(matches({EventKind::Fit, "hme"}, {EventKind::Remove, "hme"}));
    CHECK(matches({EventKind::UseEnd, ""}, {EventKind::UseEnd, ""}));
    CHECK_FALSE(matches({EventKind::UseEnd, ""}, {EventKind::UseStart, ""}));
}

TEST_CASE("A star names every subject of the kind", "[unit]") {
    CHECK(matches({EventKind::Clear, "*"}, {EventKind::Clear, "fan"}));
    CHECK(matches({EventKind::Fit, "*"}, {EventKind::Fit, "hme"}));
    CHECK_FALSE(matches({EventKind::Clear, "*"}, {EventKind::Fault, "fan"}));
    CHECK_FALSE(matches({EventKind::Clear, "fan"}, {EventKind::Clear, "*"}));
}

TEST_CASE("A change is a fit or a removal", "[unit]") {
    CHECK(matches({EventKind::Change, "hme"}, {EventKind::Fit, "hme"}));
    CHECK(matches({EventKind::Change, "hme"}, {EventKind::Remove, "hme"}));
    CHECK(matches({EventKind::Change, "*"}, {EventKind::Remove, "circuit"}));
    CHECK_FALSE(matches({EventKind::Change, "hme"}, {EventKind::Remove, "circuit"}));
    CHECK_FALSE(matches({EventKind::Change, "hme"}, {EventKind::Reprocess, "hme"}));
}
