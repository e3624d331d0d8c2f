// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What holds where a rulebook does not give a field, and fields that may be written in several
// ways.
#include "support/rulebook_texts.h"

#include <catch2/catch.hpp>

using namespace rules;
using logbook::Level;
using logbook::Reuse;
using support::head;
using support::hours;
using support::taken;

namespace {

constexpr Duration minutes(int count) { return {count * 60'000LL}; }
constexpr Duration days(int count) { return {count * 86'400'000LL}; }

}  // namespace

TEST_CASE("Every default holds where a field is not given", "[unit]") {
    const auto book = taken(head);
    CHECK(book->lateEntryAfter == hours(2));
    CHECK(book->clockTolerance == minutes(5));
    CHECK(book->maxWaiver == days(30));
    CHECK_FALSE(book->confirmEvery);
    CHECK_FALSE(book->group("adult")->par);
    CHECK(book->group("adult")->label.empty());

    const auto* position = book->position("circuit");
    REQUIRE(position);
    CHECK_FALSE(position->required);
    CHECK_FALSE(position->requiredWhen);
    CHECK_FALSE(position->matchGroup);
    CHECK_FALSE(position->changeAfter);
    CHECK_FALSE(position->changeAfterUse);
    CHECK(position->reuse == Reuse::Permanent);
    CHECK(position->reprocessLevel == Level::Low);
    CHECK_FALSE(position->maxReprocess);
    CHECK(position->takes == minutes(1));
    CHECK(position->reprocessTakes == minutes(30));
    CHECK(position->reprocessAttended == minutes(30));
    CHECK_FALSE(position->spare);

    const auto* check = book->check("leak");
    REQUIRE(check);
    CHECK(check->attended == minutes(2));
    CHECK(check->blocks == Blocks::Yes);
    CHECK(check->failBlocks);
    CHECK_FALSE(check->waivable);
    CHECK_FALSE(check->duringUse);
    CHECK_FALSE(check->needsSecond);
    CHECK(check->appliesWhen.empty());
    CHECK_FALSE(check->validFor);
    CHECK(check->voidedBy.empty());
    CHECK(check->measures.empty());

    const auto* service = book->service("acceptance");
    REQUIRE(service);
    CHECK_FALSE(service->every);
    CHECK(service->graceDays == 0);
    CHECK_FALSE(service->beforeFirstUse);
    CHECK(service->dueAfter.empty());
    CHECK(book->authority.empty());
}

TEST_CASE("Reprocessing takes all the person's time unless said otherwise", "[unit]") {
    const auto book = taken(head + "[positions.p]\nreprocess_takes = \"PT45M\"\n");
    CHECK(book->position("p")->reprocessAttended == minutes(45));
}

TEST_CASE("Whether a check blocks is true, false or at the start", "[unit]") {
    CHECK(taken(head + "blocks = true\n")->check("leak")->blocks == Blocks::Yes);
    CHECK(taken(head + "blocks = false\n")->check("leak")->blocks == Blocks::No);
    CHECK(taken(head + "blocks = \"start\"\n")->check("leak")->blocks == Blocks::Start);
}

TEST_CASE("Lists of tables may be written either way", "[unit]") {
    const auto book = taken(head + "[[checks.leak.voided_by]]\nevent = \"soil\"\n"
                                   "[[checks.leak.voided_by]]\nevent = \"use_end\"\n");
    REQUIRE(book->check("leak")->voidedBy.size() == 2);
    CHECK(book->check("leak")->voidedBy[1].event.kind == EventKind::UseEnd);
}
