// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Notices and recalls: which devices and parts each matches, and what ends one.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string positions = book("[positions.circuit]\n[positions.sensor]\n");

LogBuilder start() {
    LogBuilder log;
    log.adopt(positions);
    log.on(device).enrol({"adult"}, {}, {{"model", "Larch"}});
    log.on(device).fit("circuit",
                       {{"serial", "C1"}, {"lot", "L1"}, {"model", "Coil"}});
    log.on(device).fit("sensor", {{"serial", "S1"}, {"lot", "L2"}, {"model", "Vane"}});
    return log;
}

bool isMatched(json::Object match, LogBuilder log = start()) {
    log.department().notice("n1", std::move(match));
    return !findings(assessed(log)).empty();
}

}  // namespace

TEST_CASE("what a notice does", "[unit]") {
    LogBuilder log = start();
    const auto notice = log.department().at("09:00").notice("n1");
    auto assessment = assessed(log);
    CHECK(blocking(assessment) == "notice n1");
    CHECK(restsOn(finding(assessment, "notice n1")) == toText(notice));
    CHECK(text(finding(assessment, "notice n1").since) == "2026-03-02T09:00:00Z");
    CHECK(verdict(assessment) == "not_ready");
    for (const std::string action : {"inspect", "information"}) {
        log.department().notice("n1", {}, action);
        assessment = assessed(log);
        CHECK(findings(assessment) == "notice n1");
        CHECK(verdict(assessment) == "ready");
    }
    log.department().notice("n1", {}, "stop_use", true);
    CHECK(findings(assessed(log)).empty());
    log.department().notice("n1");
    CHECK(findings(assessed(log)) == "notice n1");
}

TEST_CASE("fields of the device", "[unit]") {
    CHECK(isMatched({}));
    CHECK(isMatched({{"devices", list({"KB-7", device})}}));
    CHECK_FALSE(isMatched({{"devices", list({"KB-7"})}}));
    CHECK_FALSE(isMatched({{"devices", json::Array{}}}));
    CHECK(isMatched({{"device_models", list({"Larch"})}}));
    CHECK_FALSE(isMatched({{"device_models", list({"Rowan"})}}));
    CHECK_FALSE(isMatched({{"device_models", list({"Rowan"})}, {"devices", list({device})}}));
    CHECK_FALSE(isMatched({{"device_models", list({"Larch"})}, {"devices", list({"KB-7"})}}));
}

TEST_CASE("the software", "[unit]") {
    CHECK_FALSE(isMatched({{"software", list({"3.1"})}}));  // not stated does not match
    CHECK_FALSE(isMatched({{"software", list({""})}}));
    LogBuilder log = start();
    log.on(device).software("3.1");
    CHECK(isMatched({{"software", list({"3.0", "3.1"})}}, log));
    CHECK_FALSE(isMatched({{"software", list({"3.2"})}}, log));
    CHECK_FALSE(isMatched({{"software", list({"3.1"})}, {"device_models", list({"Rowan"})}}, log));
}

TEST_CASE("fields of a part hold together against one part", "[unit]") {
    CHECK(isMatched({{"position", "circuit"}}));
    CHECK_FALSE(isMatched({{"position", "hme"}}));
    CHECK(isMatched({{"lots", list({"L9", "L2"})}}));
    CHECK_FALSE(isMatched({{"lots", list({"L9"})}}));
    CHECK(isMatched({{"serials", list({"S1"})}}));
    CHECK_FALSE(isMatched({{"serials", list({"S2"})}}));
    CHECK(isMatched({{"part_models", list({"Coil"})}}));
    CHECK_FALSE(isMatched({{"part_models", list({"Larch"})}}));
    CHECK(isMatched({{"position", "circuit"}, {"lots", list({"L1"})}}));
    CHECK_FALSE(isMatched({{"position", "circuit"}, {"lots", list({"L2"})}}));
    CHECK_FALSE(isMatched({{"serials", list({"C1"})}, {"lots", list({"L2"})}}));
    CHECK_FALSE(isMatched({{"part_models", list({"Vane"})}, {"lots", list({"L1"})}}));
    CHECK_FALSE(isMatched({{"part_models", list({"Vane"})}, {"serials", list({"C1"})}}));
    CHECK_FALSE(isMatched({{"position", "circuit"}, {"devices", list({"KB-7"})}}));
    CHECK(isMatched({{"position", "circuit"}, {"devices", list({device})}}));
}

TEST_CASE("what a part does not state does not match", "[unit]") {
    LogBuilder log = logWith(positions);
    log.on(device).fit("circuit");
    CHECK_FALSE(isMatched({{"lots", list({"L1"})}}, log));
    CHECK_FALSE(isMatched({{"serials", list({"C1"})}}, log));
    CHECK_FALSE(isMatched({{"part_models", list({"Coil"})}}, log));
    CHECK(isMatched({{"position", "circuit"}}, log));
}

TEST_CASE("done on the device, after the notice", "[unit]") {
    LogBuilder log = start();
    log.on(device).noticeDone("n1");
    CHECK(isMatched({}, log));  // done before there was one
    log.department().notice("n1");
    log.on("KB-2").enrol({"adult"});
    log.on("KB-2").noticeDone("n1");
    log.on(device).noticeDone("n2");
    CHECK(findings(assessed(log)) == "notice n1");
    log.on(device).noticeDone("n1");
    CHECK(did(log) == " /  / effective");
    CHECK(findings(assessed(log)).empty());
    log.department().notice("n1");
    CHECK(findings(assessed(log)) == "notice n1");  // a later one is to be done again
}

TEST_CASE("a notice about parts catches a part that is put in later", "[unit]") {
    LogBuilder log = start();
    log.department().notice("n1", {{"lots", list({"L1", "L2"})}});
    log.on(device).noticeDone("n1");
    CHECK(findings(assessed(log)).empty());
    log.on(device).fit("circuit", {{"lot", "L5"}});
    CHECK(findings(assessed(log)).empty());
    log.on(device).fit("circuit", {{"lot", "L1"}});
    CHECK(findings(assessed(log)) == "notice n1");
    log.on(device).noticeDone("n1");
    CHECK(findings(assessed(log)).empty());
    log.on(device).fit("sensor", {{"lot", "L2"}});
    CHECK(findings(assessed(log)) == "notice n1");
    log.on(device).remove("sensor");
    CHECK(findings(assessed(log)).empty());
}

TEST_CASE("a notice about devices does not ask for it again after a fit", "[unit]") {
    LogBuilder log = start();
    log.department().notice("n1", {{"device_models", list({"Larch"})}});
    log.on(device).noticeDone("n1");
    log.on(device).fit("circuit");
    CHECK(findings(assessed(log)).empty());
}

TEST_CASE("each notice stands by itself", "[unit]") {
    LogBuilder log = start();
    log.department().notice("n2", {{"lots", list({"L1"})}}, "inspect");
    log.department().notice("n1");
    CHECK(findings(assessed(log)) == "notice n1, notice n2");
    log.on(device).noticeDone("n1");
    CHECK(findings(assessed(log)) == "notice n2");
}
