// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every code that a layer below can give has a sentence of its own.
#include "words/fault_words.h"
#include "words/record_words.h"
#include "words/situations.h"

#include <catch2/catch.hpp>
#include <set>

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

void requireWhole(const std::string& text) {
    INFO(text);
    CHECK_FALSE(text.empty());
    CHECK(text.find_first_of("_{}") == std::string::npos);
    CHECK(text.back() == '.');
}

}  // namespace

TEST_CASE("every fault of a record has a sentence of its own", "[unit]") {
    std::set<std::string> says;
    using Code = logbook::RecordFault::Code;
    for (int code = 0; code <= static_cast<int>(Code::NoParts); ++code) {
        const auto said =
            words::recordFault(english(), {static_cast<Code>(code), "body.until", "x", 7});
        requireWhole(said.says);
        requireWhole(said.action);
        CHECK(says.insert(said.says).second);
    }
    CHECK(words::recordFault(english(), {Code::WrongType, "", "object", 0}).says ==
          "The record is of another type than it has to be.");
}

TEST_CASE("every remark on a rulebook has a sentence of its own, and its place", "[unit]") {
    std::set<std::string> says;
    using Code = rules::RulebookRemark::Code;
    for (int code = 0; code <= static_cast<int>(Code::LimitLeavesOutGroup); ++code) {
        const auto said = words::rulebookRemark(
            english(), {static_cast<Code>(code), "checks.leak", 31, 9, "adult"});
        requireWhole(said.says);
        requireWhole(said.action);
        CHECK(said.says.starts_with("Line 31, column 9, checks.leak: "));
        const bool sameForAll = code >= static_cast<int>(Code::UnknownPosition) &&
                                code <= static_cast<int>(Code::UnknownMeasure);
        CHECK((says.insert(said.says).second || sameForAll));
    }
    CHECK(words::rulebookRemark(english(), {Code::NoAuthority, "authority", 0, 0, "clear"}).says ==
          "authority: no role is named: anyone may clear a fault.");
    CHECK(words::rulebookRemark(english(), {Code::MinOverMax, "", 1, 1, ""}).says ==
          "Line 1, column 1, the file: the lower limit is above the upper one.");
    CHECK(words::rulebookRemark(english(), {Code::TooLarge, "groups.adult.par", 6, 7, "999"})
              .text() == "Line 6, column 7, groups.adult.par: the number is greater than 999. "
                         "Write a whole number from 0 to 999.");
}

TEST_CASE("every anomaly has a sentence of its own", "[unit]") {
    const auto scene = sample::sceneOf(sample::situations().front());
    const auto context = scene.context();
    std::set<std::string> says;
    using Code = rules::AnomalyCode;
    for (int code = 0; code <= static_cast<int>(Code::WaiverRefused); ++code) {
        for (const auto& record : scene.log.records()) {
            const auto said = words::anomaly(context, record, static_cast<Code>(code));
            requireWhole(said.says);
            requireWhole(said.action);
            if (&record == &scene.log.records().back()) CHECK(says.insert(said.says).second);
        }
    }
}

TEST_CASE("an entry without authority names who may", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "service", R"({"service":"maintenance","outcome":"pass"})");
    const sample::Scene scene(story, "10 12:30");
    const auto said = words::anomaly(scene.context(), scene.log.records().back(),
                                     rules::AnomalyCode::Unauthorised);
    CHECK(said.says == "J. Linden may not record a service; the entry has no effect.");
    CHECK(said.action == "Have it entered anew by: Biomedical engineer.");
}

TEST_CASE("a refusal says who may, that nothing was saved, and what to do", "[unit]") {
    const auto scene = sample::sceneOf(sample::situations().front());
    const auto context = scene.context();
    std::set<std::string> says;
    for (const auto& record : scene.log.records()) {
        const auto refused = words::refusal(context, record, {false, {"biomed", "risk_manager"}});
        CHECK(refused.says.starts_with(words::personName(context, record.by) + " may not "));
        CHECK(refused.action ==
              "Ask one of these to record it: Biomedical engineer (M. Alder) or "
              "Risk manager (M. Alder).");
        CHECK_FALSE(refused.safe.empty());
        requireWhole(words::refusal(context, record, {false, {}}).text());
    }
    for (int kind = 0; kind < logbook::kindCount; ++kind)
        CHECK(says.insert(words::actWords(english(), static_cast<logbook::Kind>(kind))).second);
}

TEST_CASE("every class of start has a word and a meaning", "[unit]") {
    std::set<std::string> told;
    for (int each = 0; each <= static_cast<int>(rules::StartClass::Noncompliant); ++each) {
        const auto startClass = static_cast<rules::StartClass>(each);
        CHECK(told.insert(words::classWord(english(), startClass)).second);
        CHECK(told.insert(words::classMeaning(english(), startClass)).second);
    }
}

TEST_CASE("every verdict and status of a check has a word", "[unit]") {
    CHECK(words::verdictWord(english(), rules::Verdict::Withdrawn) == "out of service");
    CHECK(words::verdictWord(english(), rules::Verdict::NotReady) == "not ready");
    CHECK(words::verdictWord(english(), rules::Verdict::InUse) == "in use");
    CHECK(words::verdictWord(english(), rules::Verdict::Ready) == "ready");
    CHECK(words::verdictWord(english(), rules::Verdict::Retired) == "retired");
    CHECK(words::statusWord(english(), rules::CheckStatus::Lapsed) == "out of date");
    CHECK(words::statusWord(english(), rules::CheckStatus::Exempt) == "exempt");
    CHECK(words::statusWord(english(), rules::CheckStatus::Due) == "due");
    CHECK(words::statusWord(english(), rules::CheckStatus::Failed) == "failed");
    CHECK(words::statusWord(english(), rules::CheckStatus::Current) == "current");
}

TEST_CASE("trouble says what happened, whether data is safe, and what to do", "[unit]") {
    std::set<std::string> says;
    for (const auto* code : {"not_found",     "exists",         "not_a_logbook",
                             "newer_schema",  "older_schema",   "read_only",
                             "not_permitted", "busy",           "disk_full",
                             "damaged",       "needs_recovery", "network_file_system",
                             "no_station",    "station_set",    "station_taken",
                             "bad_station",   "fork",           "gap",
                             "chain_broken",  "first_changed",  "not_own",
                             "no_record",     "cancelled",      "io",
                             "bad_records",   "no_edition",     "bad_rulebook",
                             "wrong_edition", "unknown_group",  "unknown_device",
                             "bad_instant",   "bad_month",      "unreadable",
                             "made_up_later"}) {
        const auto said = words::trouble(english(), code, {{"path", "/data/kb.airmuster"}});
        requireWhole(said.says);
        requireWhole(said.safe);
        requireWhole(said.action);
        CHECK(says.insert(said.says).second);
    }
    CHECK(words::trouble(english(), "busy",
                         {{"person", "rt1"}, {"computer", "icu-desk"}, {"time", "02:10"}})
              .says == "rt1 on icu-desk has been writing to the logbook since 02:10.");
    CHECK(words::trouble(english(), "busy").says ==
          "Another program has the logbook open: it is writing to it, or has been reading it all "
          "the while.");
    CHECK(words::trouble(english(), "io", {{"path", "/data/kb"}}).says ==
          "The disk or share gave an error: the system gave no reason.");
    CHECK(
        words::logFault(english(), {rules::LogFault::Code::WrongEdition, {"icu-1", 4}, {}}).says ==
        "Record icu-1/4 names another policy edition than the text in it.");
}

TEST_CASE("a break in the chain is told by its reason", "[unit]") {
    std::set<std::string> says;
    for (const auto* reason : {"hash", "column", "not_a_record", "gap", "tail_lost", "order",
                               "unreadable", "hole", "not_noted", "made_up_later"}) {
        const auto said = words::chainBreak(english(), reason, {{"record", "icu-1/4"}});
        requireWhole(said.text());
        CHECK(says.insert(said.says).second);
    }
    const auto unread = [](const std::string& why) {
        return words::chainBreak(english(), "unreadable", {{"record", "icu-1/4"}, {"detail", why}})
            .says;
    };
    CHECK(unread("Input/output error") == "Record icu-1/4 cannot be read: Input/output error.");
    CHECK(unread("") == "Record icu-1/4 cannot be read.");
}

TEST_CASE("tasks and what stands in their way have sentences", "[unit]") {
    const auto scene = sample::sceneOf(sample::situations().front());
    const auto context = scene.context();
    CHECK(words::task(context, "group", "neonatal") == "Select Neonatal on the unit.");
    CHECK(words::task(context, "remove", "hme") == "Take out: HME.");
    CHECK(words::task(context, "fit", "hme") == "Fit: HME.");
    CHECK(words::task(context, "fit", "hme", true) == "Put back: HME.");
    CHECK(words::task(context, "reprocess", "flow_sensor") ==
          "Reprocess: flow sensor (high-level disinfection).");
    CHECK(words::task(context, "check", "leak") == "Carry out: leak test.");
    CHECK(words::readyLine(context, context.asked) == "Ready now.");
    CHECK(words::readyLine(context, {context.asked.ms + 540'001}) == "Ready at 12:40, in 10 min.");
    CHECK(words::unattended(english(), {1'500'000}) == "runs on its own for 25 min");
    for (const auto* blocker : {"in_use", "retired", "closing_fit hme", "order"})
        requireWhole(words::blocker(context, blocker).text());
}

TEST_CASE("every kind of record has a line of its own", "[unit]") {
    sample::Story story;
    story.ready();
    const std::vector<std::pair<std::string, std::string>> told{
        {"group", R"({"group":"neonatal"})"},
        {"power", R"({"on":false})"},
        {"move", R"({"location":"ICU"})"},
        {"sighted", R"({"location":"ICU"})"},
        {"software", R"({"version":"2.1"})"},
        {"remove", R"({"position":"hme"})"},
        {"reprocess", R"({"positions":["hme","circuit"],"level":"high"})"},
        {"soil", R"({"reason":"splash"})"},
        {"alarm", R"({"code":"low_supply"})"},
        {"fault", R"({"code":"fan_noise"})"},
        {"clear", R"({"code":"fan_noise"})"},
        {"withdraw", R"({"hold":"repair","reason":"noise"})"},
        {"release", R"({"hold":"repair"})"},
        {"waive", R"({"finding":"change_due","subject":"circuit","until":"2026-11-20T00:00:00Z",)"
                  R"("reason":"surge"})"},
        {"notice_done", R"({"key":"n26_03"})"},
        {"service", R"({"service":"maintenance","outcome":"not_located"})"},
        {"use_start", "{}"},
        {"use_pause", R"({"reason":"walk"})"},
        {"use_resume", "{}"},
        {"use_end", "{}"},
        {"note", R"({"text":"x_y"})"},
        {"review", R"({"target":"icu-1/2","disposition":"accepted_so","text":""})"},
        {"strike", R"({"target":"icu-1/2","reason":"wrong unit"})"},
        {"retire", R"({"reason":"old"})"}};
    for (const auto& [kind, body] : told) story.tell("10 12:00", kind, body);
    sample::giveNotice(story, R"({"key":"n26_08","title":"Look at the hose","action":"inspect",)"
                              R"("match":{"devices":["V-1"]}})");
    story.tell("10 12:20", "notice_done", R"({"key":"n26_08"})");
    const sample::Scene scene(story, "10 12:30");
    std::set<std::string> lines;
    std::string all;
    for (const auto& record : scene.log.records()) {
        const auto line = words::recordLine(scene.context(), record);
        CHECK_FALSE(line.empty());
        all += line + "\n";
    }
    INFO(all);
    CHECK(all.find("Reprocessed (high-level disinfection): HME and breathing circuit\n") !=
          std::string::npos);
    CHECK(all.find("Leak test: passed; leak 80 mL/min\n") != std::string::npos);
    CHECK(all.find("Deviation permitted until 19 Nov 18:00: breathing circuit to be changed "
                   "(surge)\n") != std::string::npos);
    CHECK(all.find("Preventive maintenance: not done, unit not found\n") != std::string::npos);
    const std::string named = "icu-1/2 (Roles of J. Linden set, 1 Nov 06:00)";
    CHECK(all.find("Review of " + named + ": accepted so\n") != std::string::npos);
    CHECK(all.find("Entry " + named + " struck through: wrong unit\n") != std::string::npos);
    CHECK(all.find("Notice carried out: n26 03\n") != std::string::npos);
    CHECK(all.find("Notice carried out: n26 08: Look at the hose\n") != std::string::npos);
}
