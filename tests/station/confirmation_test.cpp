// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries under a name, and who confirms which of them how.
#include "station/confirmation.h"

#include "station/correction.h"
#include "station/import.h"
#include "station/ward.h"

using support::Ward;
using Names = std::vector<std::string>;

namespace {

Names unconfirmed(Ward& ward, const std::optional<std::string>& who = {}) {
    const auto list = station::unconfirmed(ward.surroundings, ward.logbook, who);
    REQUIRE(list);
    Names names;
    for (const auto& entry : *list) {
        names.push_back(toText(entry.record));
    }
    return names;
}

// Two entries under the name of mt (5 and 6), one under that of rs (7).
struct Unsigned {
    Ward ward;
    station::Writer robin{"rs"};
    Unsigned() {
        ward.found();
        ward.person("rs", "biomed");
        ward.enrol("KB-0001");
        robin = ward.as("rs");
        for (const auto* person : {"mt", "mt", "rs"}) {
            station::Entry entry{person, "soil", "KB-0001"};
            entry.body = {{"reason", "Splash"}};
            REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
        }
    }

    std::string confirm(station::Writer by, std::vector<logbook::RecordName> records) {
        const auto done = station::confirm(ward.surroundings, ward.logbook,
                                           {std::move(by), std::move(records)});
        return done ? std::to_string(done->size()) : done.error().code;
    }
};

}  // namespace

TEST_CASE("Each confirms what stands under their own name", "[unit]") {
    Unsigned day;
    CHECK(unconfirmed(day.ward) == Names{"icu-1/5", "icu-1/6", "icu-1/7"});
    CHECK(unconfirmed(day.ward, "mt") == Names{"icu-1/5", "icu-1/6"});
    const auto before = day.ward.bytes();
    CHECK(day.confirm("mt", {}) == "sign_in.no_pin_given");
    CHECK(day.confirm(day.ward.as("mt"), {{"icu-1", 7}}) == "confirm.not_yours");
    CHECK(day.confirm(day.ward.as("mt"), {{"icu-1", 5}, {"icu-1", 99}}) == "confirm.not_yours");
    CHECK((day.ward.bytes() == before));
    CHECK(day.confirm(day.ward.as("mt"), {{"icu-1", 6}, {"icu-1", 6}}) == "1");
    CHECK(unconfirmed(day.ward) == Names{"icu-1/5", "icu-1/7"});
    CHECK(day.confirm(day.ward.as("mt"), {}) == "1");
    CHECK(day.confirm(day.ward.as("mt"), {}) == "0");
    CHECK(unconfirmed(day.ward) == Names{"icu-1/7"});
    const auto logbook =
        station::openLogbook(day.ward.surroundings, day.ward.logbook, station::Access::Read);
    CHECK(logbook->records()->records.back().content.find(
              R"("body":{"disposition":"confirmed","target":"icu-1/5","text":""},"by":"mt",)"
              R"("device":"KB-0001")") != std::string::npos);
}

TEST_CASE("What is struck through needs no confirming", "[unit]") {
    Unsigned day;
    REQUIRE(station::strikeTogether(day.ward.surroundings, day.ward.logbook,
                                    {day.ward.as("mt"), {"icu-1", 5}, false, "Wrong unit"}));
    CHECK(unconfirmed(day.ward, "mt") == Names{"icu-1/6"});
}

TEST_CASE("Only a standing, signed review by the same person confirms", "[unit]") {
    Unsigned day;
    auto& ward = day.ward;
    const auto review = [&](station::Writer by, const char* target, const char* disposition) {
        station::Entry entry{std::move(by), "review", "KB-0001"};
        entry.body = {{"target", target}, {"disposition", disposition}, {"text", ""}};
        return *station::writeEntry(ward.surroundings, ward.logbook, entry);
    };
    review(day.robin, "icu-1/5", "confirmed");
    review(ward.as("mt"), "icu-1/5", "Looked at");
    CHECK(unconfirmed(ward, "mt") == Names{"icu-1/5", "icu-1/6"});
    const auto standing = review(ward.as("mt"), "icu-1/5", "confirmed").record;
    CHECK(unconfirmed(ward, "mt") == Names{"icu-1/6"});
    REQUIRE(station::strikeTogether(ward.surroundings, ward.logbook,
                                    {ward.as("mt"), standing, false, "Not I"}));
    CHECK(unconfirmed(ward, "mt") == Names{"icu-1/5", "icu-1/6"});
    // From elsewhere, itself unsigned.
    const auto line =
        R"({"at":"2026-03-02T14:00:00Z","body":{"disposition":"confirmed","target":"icu-1/6",)"
        R"("text":""},"by":"mt","confirmed":false,"device":"KB-0001",)"
        R"("entered":"2026-03-02T14:00:05Z","kind":"review","seq":1,"station":"er-2"})" "\n";
    REQUIRE(station::importFiles(ward.surroundings, ward.logbook,
                                 {ward.folder.write("er.jsonl", line)}, ward.importer()));
    CHECK(unconfirmed(ward, "mt") == Names{"icu-1/5", "icu-1/6", "er-2/1"});
}
