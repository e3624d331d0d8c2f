// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What can be said of a kind of record without its body.
#include "logbook/kind.h"

#include <catch2/catch.hpp>

#include <set>
#include <string>

using namespace logbook;

namespace {

std::set<std::string> kindsFor(bool (*holds)(Kind)) {
    std::set<std::string> names;
    for (int index = 0; index < kindCount; ++index) {
        if (holds(static_cast<Kind>(index))) {
            names.emplace(kindName(static_cast<Kind>(index)));
        }
    }
    return names;
}

}  // namespace

TEST_CASE("Every kind has a word of its own", "[exhaustive]") {
    CHECK(kindsFor([](Kind) { return true; }).size() == static_cast<std::size_t>(kindCount));
    for (int index = 0; index < kindCount; ++index) {
        const auto kind = static_cast<Kind>(index);
        CHECK(kindOf(kindName(kind)) == kind);
    }
}

TEST_CASE("The words of kinds", "[unit]") {
    CHECK(kindName(Kind::UseStart) == "use_start");
    CHECK(kindName(Kind::NoticeDone) == "notice_done");
    CHECK(kindName(Kind::Adopt) == "adopt");
    CHECK(kindName(Kind::Strike) == "strike");
    CHECK_FALSE(kindOf(""));
    CHECK_FALSE(kindOf("Check"));
    CHECK_FALSE(kindOf("telepathy"));
}

TEST_CASE("Department-wide and timely kinds", "[unit]") {
    CHECK(kindsFor(isDepartmentWide) == std::set<std::string>{"adopt", "notice", "person", "sign"});
    CHECK(kindsFor(mustBeTimely) ==
          std::set<std::string>{"adopt", "notice", "person", "sign", "strike", "waive"});
}
