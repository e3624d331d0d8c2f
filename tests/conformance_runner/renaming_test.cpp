// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Renaming: every name changes, in the same way everywhere; words with a meaning of their own stay.
#include "conformance_runner/renaming.h"

#include <toml++/toml.h>
#include <catch2/catch.hpp>

using namespace conformance;

namespace {

Value json(std::string_view text) {
    return logbook::json::parse(text).value();
}

constexpr const char* rulebook = R"(
format = 1
edition = "1"
[groups.adult]
[positions.circuit]
required_when = { "feature.co2" = true, "group" = "adult", "last_use.precautions" = true }
[choices.wet]
positions = ["hme", "circuit"]
[checks.leak]
takes = "PT2M"
needs = ["warmed_up", "mains"]
voided_by = [
  { event = "fit circuit", only = "different layout", when = { "circuit.layout" = "coaxial" } },
  { event = "clear *", unless = { "circuit.reuse" = "single_use" } },
]
[checks.leak.measures.leak]
unit = "mL/min"
max = { adult = 200 }
[authority]
clear = ["biomed"]
)";

}  // namespace

TEST_CASE("Other names keep their order and are the same everywhere", "[property]") {
    const auto seed = GENERATE(take(20, random(0, 1'000'000)));
    CAPTURE(seed);
    Names names;
    const std::vector<std::string> keys{"a", "a_b", "ab", "b", "circuit", "leak", "z9"};
    for (const auto& key : keys) {
        CHECK(names(NameKind::Check, key) == key);
    }
    CHECK(names(NameKind::Condition, "warmed_up") == "warmed_up");
    names.settle(static_cast<std::uint64_t>(seed));
    CHECK(names.size() == keys.size());
    for (std::size_t place = 0; place + 1 < keys.size(); ++place) {
        CHECK(names(NameKind::Check, keys[place]) < names(NameKind::Check, keys[place + 1]));
        CHECK(names(NameKind::Check, keys[place]) == names(NameKind::Check, keys[place]));
    }
    CHECK(names(NameKind::Condition, "warmed_up") == "warmed_up");
    CHECK(names(NameKind::Check, "*") == "*");
    CHECK(names(NameKind::Device, "").empty());
}

TEST_CASE("A rulebook is renamed wherever a name stands", "[unit]") {
    Names names;
    static_cast<void>(renamedRulebook(rulebook, names));
    names.settle(7);
    const std::string text = renamedRulebook(rulebook, names);
    for (const char* gone : {"adult", "circuit", "co2", "hme", "wet", "leak", "mains", "layout",
                             "coaxial", "biomed"}) {
        CAPTURE(gone);
        CHECK(text.find(gone) == std::string::npos);
    }
    for (const char* kept : {"warmed_up", "single_use", "clear *", "last_use.precautions",
                             "feature.", "PT2M", "mL/min", ".reuse"}) {
        CAPTURE(kept);
        CHECK(text.find(kept) != std::string::npos);
    }
    const toml::table root = toml::parse(std::string_view(text));
    const auto check = names(NameKind::Check, "leak");
    const auto measure = names(NameKind::Measure, "leak");
    const auto group = names(NameKind::Group, "adult");
    CHECK(root["checks"][check]["measures"][measure]["max"][group].value<int>() == 200);
    CHECK(root["checks"][check]["voided_by"][0]["event"].value<std::string>() ==
          "fit " + names(NameKind::Place, "circuit"));
    CHECK(root["checks"][check]["voided_by"][0]["only"].value<std::string>() ==
          "different " + names(NameKind::Attribute, "layout"));
}

TEST_CASE("Records and answers get the names of the rulebook", "[unit]") {
    Names names;
    const auto record = json(R"({"station":"a","seq":1,"by":"ann","device":"D1","kind":"fit",)"
                             R"("body":{"position":"circuit","part":{"serial":"S1","lot":"",)"
                             R"("layout":"coaxial","reuse":"reusable","groups":["adult"]}}})");
    const auto answer = json(R"([{"device":"D1","group":"adult","last":{"record":"a/1"},)"
                             R"("checks":{"leak":"due"},"findings":[{"finding":"spent",)"
                             R"("subject":"circuit","discounted":{"reasons":["incomplete",)"
                             R"("mismatch circuit"]}}]}])");
    static_cast<void>(renamedRecord(record, names));
    static_cast<void>(renamedAnswer(answer, names));
    names.settle(11);
    const Value other = renamedRecord(record, names);
    const std::string place = names(NameKind::Place, "circuit");
    CHECK(*other.find("body")->find("position")->string() == place);
    const Value& part = *other.find("body")->find("part");
    CHECK(*part.find("reuse")->string() == "reusable");
    CHECK(part.find("lot")->string()->empty());
    CHECK(*part.find(names(NameKind::Attribute, "layout"))->string() ==
          names(NameKind::AttributeValue, "coaxial"));
    CHECK(*other.find("station")->string() == names(NameKind::Station, "a"));

    const Value told = renamedAnswer(answer, names);
    const Value& device = told.array()->front();
    CHECK(*device.find("last")->find("record")->string() == names(NameKind::Station, "a") + "/1");
    CHECK(device.find("checks")->find(names(NameKind::Check, "leak")) != nullptr);
    const Value& finding = device.find("findings")->array()->front();
    CHECK(*finding.find("subject")->string() == place);
    CHECK(*finding.find("finding")->string() == "spent");
    CHECK(finding.find("discounted")->find("reasons")->array()->at(1) ==
          Value("mismatch " + place));
}
