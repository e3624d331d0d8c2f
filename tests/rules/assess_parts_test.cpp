// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings on what is fitted: missing, unsuited, expired, due for change, worn out, used.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

std::string bookOfCircuit(const std::string& rule, const std::string& more = "") {
    return book("[positions.circuit]\n" + rule + "\n" + more);
}

// Checks that it blocks and rests on the fit of `fit`, since `since`.
void restsOnFit(const rules::Finding& found, const RecordName& fit, std::string_view since) {
    CHECK(found.blocking() == rules::Blocks::Yes);
    CHECK(restsOn(found) == toText(fit));
    CHECK(text(found.since) == logbook::toText(when(since)));
}

}  // namespace

TEST_CASE("missing", "[unit]") {
    LogBuilder log = logWith(bookOfCircuit("required = true", "[positions.hme]\n"));
    const auto assessment = assessed(log);
    CHECK(blocking(assessment) == "missing circuit");
    CHECK_FALSE(finding(assessment, "missing circuit").record);
    CHECK_FALSE(finding(assessment, "missing circuit").since);
    log.on(device).fit("circuit");
    CHECK(findings(assessed(log)).empty());
    log.on(device).remove("circuit");
    CHECK(findings(assessed(log)) == "missing circuit");
}

TEST_CASE("required when", "[unit]") {
    const std::string rule = "required_when = { \"feature.co2\" = true }";
    CHECK(findings(assessed(logWith(bookOfCircuit(rule), {"co2"}))) == "missing circuit");
    CHECK(findings(assessed(logWith(bookOfCircuit(rule)))).empty());
    const std::string either = rule + "\nrequired = true";
    CHECK(findings(assessed(logWith(bookOfCircuit(either)))) == "missing circuit");
    LogBuilder log = logWith(book(
        "[positions.sensor]\n[positions.circuit]\n"
        "required_when = { \"sensor.kind\" = \"mainstream\" }\n"));
    CHECK(findings(assessed(log)).empty());
    log.on(device).fit("sensor");
    CHECK(findings(assessed(log)) == "missing circuit");  // not stated: it may be
    log.on(device).fit("sensor", {{"kind", "sidestream"}});
    CHECK(findings(assessed(log)).empty());
}

TEST_CASE("one of a choice", "[unit]") {
    LogBuilder log = logWith(book(
        "[positions.hme]\n[positions.humidifier]\n[positions.bottle]\n"
        "[choices.moisture]\npositions = [\"hme\", \"humidifier\", \"bottle\"]\n"));
    CHECK(blocking(assessed(log)) == "missing moisture");
    log.on(device).fit("humidifier");
    CHECK(findings(assessed(log)).empty());
    log.on(device).fit("hme");
    CHECK(blocking(assessed(log)) == "conflict moisture");
    CHECK_FALSE(finding(assessed(log), "conflict moisture").record);
    log.on(device).fit("bottle");
    CHECK(findings(assessed(log)) == "conflict moisture");
    log.on(device).remove("hme");
    log.on(device).remove("humidifier");
    CHECK(findings(assessed(log)).empty());
}

TEST_CASE("a conflict", "[unit]") {
    LogBuilder log = logWith(book(
        "[positions.hme]\n[positions.humidifier]\n[conflicts.both]\n"
        "when = { \"hme.fitted\" = true, \"humidifier.fitted\" = true }\n"
        "[conflicts.type]\nwhen = { \"hme.type\" = \"large\" }\n"));
    CHECK(findings(assessed(log)).empty());
    log.on(device).fit("humidifier");
    CHECK(findings(assessed(log)).empty());
    log.on(device).fit("hme");
    CHECK(blocking(assessed(log)) == "conflict both, conflict type");  // not stated: it may be
    log.on(device).fit("hme", {{"type", "small"}});
    log.on(device).remove("humidifier");
    CHECK(findings(assessed(log)).empty());
}

TEST_CASE("a part that does not suit the group", "[unit]") {
    LogBuilder log = logWith(bookOfCircuit("match_group = true", "[positions.hme]\n"));
    log.on(device).fit("hme", {{"groups", list({"pediatric"})}});
    CHECK(findings(assessed(log)).empty());  // nobody asks it to
    auto fit = log.on(device).at("09:00").fit("circuit", {{"groups", list({"pediatric"})}});
    auto assessment = assessed(log);
    CHECK(findings(assessment) == "mismatch circuit");
    restsOnFit(finding(assessment, "mismatch circuit"), fit, "09:00");
    CHECK(findings(assessed(log, Asked{.group = "pediatric"})) ==
          "group_differs pediatric, group_unsupported pediatric");
    log.on(device).fit("circuit", {{"groups", list({"adult", "pediatric"})}});
    CHECK(findings(assessed(log)).empty());
    log.on(device).fit("circuit");
    CHECK(findings(assessed(log)) == "mismatch circuit");  // none stated suits none here
    log.on(device).enrol({"adult", "pediatric"});
    CHECK(findings(assessed(log)) == "group_unset");  // without a group nothing
}

TEST_CASE("expired after the local day, also on a day of 23 or 25 hours", "[unit]") {
    struct Case {
        std::string zone, expires, expired;
    };
    const std::vector<Case> cases{
        {"UTC", "2026-03-20", "2026-03-21T00:00:00Z"},
        {"America/Chicago", "2026-03-07", "2026-03-08T06:00:00Z"},
        {"America/Chicago", "2026-03-08", "2026-03-09T05:00:00Z"},
        {"America/Chicago", "2026-11-01", "2026-11-02T06:00:00Z"},
        {"Europe/Berlin", "2026-03-29", "2026-03-29T22:00:00Z"},
        {"Europe/Berlin", "2026-10-25", "2026-10-25T23:00:00Z"},
    };
    for (const auto& each : cases) {
        CAPTURE(each.zone, each.expires);
        LogBuilder log = logWith(book("[positions.circuit]\n", {"1", each.zone}));
        const auto fit = log.on(device).fit("circuit", {{"expires", each.expires}});
        const Instant expired = when(each.expired);
        CHECK(findings(assessed(log, {justBefore(expired)})).empty());
        const auto assessment = assessed(log, {expired});
        CHECK(findings(assessment) == "expired circuit");
        restsOnFit(finding(assessment, "expired circuit"), fit, each.expired);
        CHECK(assessed(log, "03-02 12:00").readyUntil == expired);
    }
}

TEST_CASE("put in when it had expired already", "[unit]") {
    LogBuilder log = logWith(bookOfCircuit(""));
    const auto fit = log.on(device).at("09:00").fit("circuit", {{"expires", "2026-02-01"}});
    const auto assessment = assessed(log);
    restsOnFit(finding(assessment, "expired circuit"), fit, "09:00");
}

TEST_CASE("due for change so long after it was put in", "[unit]") {
    LogBuilder log = logWith(bookOfCircuit("change_after = \"P7D\""));
    const auto fit = log.on(device).at("09:00").fit("circuit");
    CHECK(findings(assessed(log, "03-09 08:59:59.999")).empty());
    const auto assessment = assessed(log, "03-09 09:00");
    CHECK(findings(assessment) == "change_due circuit");
    restsOnFit(finding(assessment, "change_due circuit"), fit, "03-09 09:00");
    CHECK(assessed(log, "10:00").readyUntil == when("03-09 09:00"));
    log.on(device).at("03-09 10:00").fit("circuit");
    CHECK(findings(assessed(log, "03-10 09:00")).empty());
}

TEST_CASE("due for change so long after its first use", "[unit]") {
    LogBuilder log = logWith(bookOfCircuit("change_after_use = \"P3D\"\nchange_after = \"P10D\""));
    const auto fit = log.on(device).at("09:00").fit("circuit", {{"serial", "C1"}});
    CHECK(findings(assessed(log, "03-11 00:00")).empty());
    log.on(device).at("10:00").useStart();
    log.on(device).at("11:00").useEnd();
    log.on(device).at("12:00").useStart();
    log.on(device).at("13:00").useEnd();
    CHECK(findings(assessed(log, "03-05 09:59:59.999")).empty());
    auto assessment = assessed(log, "03-05 10:00");
    CHECK(findings(assessment) == "change_due circuit");
    restsOnFit(finding(assessment, "change_due circuit"), fit, "03-05 10:00");
    SECTION("the earlier of the two") {
        log.on(device).at("03-05 12:00").fit("circuit", {{"serial", "C2"}});
        log.on(device).at("03-14 00:00").useStart();
        log.on(device).at("03-14 01:00").useEnd();
        CHECK(findings(assessed(log, "03-15 11:59:59.999")).empty());
        CHECK(text(finding(assessed(log, "03-20 12:00"), "change_due circuit").since) ==
              "2026-03-15T12:00:00Z");
    }
    SECTION("it goes with the serial, and is since the fit if that is later") {
        const auto again = log.on(device).at("03-06 08:00").fit("circuit", {{"serial", "C1"}});
        assessment = assessed(log, "03-06 08:00");
        restsOnFit(finding(assessment, "change_due circuit"), again, "03-06 08:00");
    }
}

TEST_CASE("a first use is no reason where only the fit counts, and the other way round", "[unit]") {
    for (const std::string rule : {"change_after_use = \"P3D\"", "change_after = \"P3D\""}) {
        LogBuilder log = logWith(bookOfCircuit(rule));
        log.on(device).at("09:00").fit("circuit");
        CHECK(findings(assessed(log, "03-20 00:00")).empty() == (rule.find("use") != rule.npos));
    }
}

TEST_CASE("worn out", "[unit]") {
    LogBuilder log = logWith(bookOfCircuit("reuse = \"reusable\"\nmax_reprocess = 2"));
    const auto fit = log.on(device).at("09:00").fit("circuit", {{"serial", "C1"}});
    log.on(device).reprocess({"circuit"});
    log.on(device).reprocess({"circuit"});
    CHECK(findings(assessed(log)).empty());
    log.on(device).reprocess({"circuit"});
    const auto assessment = assessed(log);
    CHECK(findings(assessment) == "worn_out circuit");
    restsOnFit(finding(assessment, "worn_out circuit"), fit, "09:00");
    LogBuilder without = logWith(bookOfCircuit("reuse = \"reusable\""));
    without.on(device).fit("circuit");
    without.on(device).reprocess({"circuit"});
    CHECK(findings(assessed(without)).empty());
}

TEST_CASE("used", "[unit]") {
    const auto afterUse = [](const std::string& reuse, json::Object part = {}) {
        LogBuilder log = logWith(bookOfCircuit("reuse = \"" + reuse + "\""));
        const auto fit = log.on(device).at("09:00").fit("circuit", std::move(part));
        CHECK(findings(assessed(log)).empty());
        log.on(device).useStart();
        CHECK(findings(assessed(log)).empty());
        log.on(device).usePause();
        CHECK(findings(assessed(log)).empty());  // paused is in use
        log.on(device).useEnd();
        const auto assessment = assessed(log);
        for (const auto& each : assessment.findings) restsOnFit(each, fit, "09:00");
        return findings(assessment);
    };
    CHECK(afterUse("single_use") == "spent circuit");
    CHECK(afterUse("single_patient") == "spent circuit");
    CHECK(afterUse("reusable") == "unprocessed circuit");
    CHECK(afterUse("permanent").empty());
    CHECK(afterUse("permanent", {{"reuse", "single_use"}}) == "spent circuit");
    CHECK(afterUse("single_use", {{"reuse", "permanent"}}).empty());
}
