// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// That a slip takes nobody's last manager away, be it in an entry or in a file from elsewhere.
#include "station/managers.h"

#include "station/import.h"
#include "support/statement_moments.h"
#include "ward.h"

using namespace support;

namespace {

std::string policyNaming(std::string_view role, std::string_view edition = "2") {
    std::string text(Ward::policy);
    const std::string old = "edition = \"1\"";
    text.replace(text.find(old), old.size(), "edition = \"" + std::string(edition) + "\"");
    return text + "person = [\"" + std::string(role) + "\"]\n";
}

station::Result<station::Adopted> adopt(Ward& ward, const std::string& text) {
    ward.folder.write("next.toml", text);
    return station::adopt(ward.surroundings, ward.logbook,
                          {ward.as("mt"), ward.folder.file("next.toml")});
}

// mt is lead, and only a lead enters persons.
void foundWithRoles(Ward& ward) {
    ward.found();
    REQUIRE(adopt(ward, policyNaming("lead")));
}

station::Result<station::Written> enter(Ward& ward, const std::string& key,
                                        logbook::json::Array roles,
                                        const std::string& until = "") {
    station::Entry entry{ward.as("mt"), "person"};
    entry.body = {{"person", key}, {"name", key}, {"roles", std::move(roles)}};
    if (!until.empty()) {
        entry.body.emplace_back("until", until);
    }
    return station::writeEntry(ward.surroundings, ward.logbook, entry);
}

void checkRefused(Ward& ward, std::string_view code,
                  const std::function<station::Result<station::Written>()>& write) {
    const auto before = ward.bytes();
    const auto written = write();
    REQUIRE_FALSE(written);
    CHECK(written.error().code == code);
    CHECK((ward.bytes() == before));
}

}  // namespace

TEST_CASE("the last who may enter persons stays until another may", "[unit]") {
    Ward ward;
    foundWithRoles(ward);
    using Roles = logbook::json::Array;
    for (const auto& roles : {Roles{"laed"}, Roles{}}) {
        checkRefused(ward, "safeguard.no_manager", [&] { return enter(ward, "mt", roles); });
    }
    checkRefused(ward, "safeguard.no_manager",
                 [&] { return enter(ward, "mt", {"lead"}, "2026-03-01"); });
    REQUIRE(enter(ward, "bk", {"lead"}));
    CHECK(enter(ward, "mt", {}));
}

TEST_CASE("where everybody known enters persons, the last one known stays", "[unit]") {
    Ward ward;
    ward.found();
    checkRefused(ward, "safeguard.nobody_known",
                 [&] { return enter(ward, "mt", {"lead"}, "2026-03-01"); });
    CHECK(enter(ward, "mt", {}));
}

TEST_CASE("a day after which nobody enters persons is told until somebody else may", "[unit]") {
    Ward ward;
    foundWithRoles(ward);
    const auto last = enter(ward, "mt", {"lead"}, "2026-12-31");
    REQUIRE(last);
    REQUIRE(last->warnings.size() == 1);
    CHECK_THAT(last->warnings[0], Catch::StartsWith("After 31 Dec 2026 nobody"));
    CHECK(enter(ward, "rs", {"biomed"})->warnings == last->warnings);
    CHECK_THAT(enter(ward, "bk", {"lead"}, "2027-01-31")->warnings[0],
               Catch::StartsWith("After 31 Jan 2027 nobody"));
    CHECK(enter(ward, "bk", {"lead"})->warnings.empty());
}

TEST_CASE("a role that the edition does not name is told", "[unit]") {
    Ward ward;
    foundWithRoles(ward);
    const auto written = enter(ward, "rs", {"biomed", "bioemd"});
    REQUIRE(written);
    REQUIRE(written->warnings.size() == 1);
    CHECK_THAT(written->warnings[0], Catch::Contains("\"bioemd\"") &&
                                         Catch::Contains("biomed or lead"));
}

TEST_CASE("an edition under which nobody could enter persons is refused", "[unit]") {
    Ward ward;
    foundWithRoles(ward);
    checkRefused(ward, "safeguard.edition_without_manager",
                 [&]() -> station::Result<station::Written> {
                     return adopt(ward, policyNaming("emperor", "3"))
                         .map([](const station::Adopted& adopted) { return adopted.written; });
                 });
    REQUIRE(enter(ward, "mt", {"lead", "emperor"}));
    CHECK(adopt(ward, policyNaming("emperor", "3")));
}

namespace {

std::string personLine(std::string_view station, int seq, const std::string& key,
                       const std::string& role, const std::string& at = "2026-03-02T15:30:00Z") {
    return logbook::json::canonical(logbook::json::Object{
               {"station", station}, {"seq", seq}, {"at", at}, {"entered", at}, {"by", "mt"},
               {"device", ""}, {"kind", "person"}, {"body", Ward::personBody(key, role)}}) +
           "\n";
}

// A ward at 16:00 in which mt is lead and rs a biomed with a PIN.
void foundWithStaff(Ward& ward) {
    foundWithRoles(ward);
    ward.clock.set(utc(2026, 3, 2, 15));
    ward.person("rs", "biomed");
    ward.clock.set(utc(2026, 3, 2, 16));
}

station::Result<station::ImportAnswer> bring(Ward& ward, const std::string& who,
                                             const std::string& bytes, bool meant = false) {
    station::Bringer bringer(ward.as(who));
    bringer.managersChange = meant;
    return station::importFiles(ward.surroundings, ward.logbook,
                                {ward.folder.write("in.jsonl", bytes)}, bringer);
}

std::string refusalOf(Ward& ward, const std::string& who, const std::string& bytes) {
    (void)ward.as(who);  // who gets a PIN at the first time
    const auto before = ward.bytes();
    const auto answer = bring(ward, who, bytes);
    CHECK((ward.bytes() == before));
    return answer ? "" : answer.error().code;
}

}  // namespace

TEST_CASE("persons of a station that had none are brought in by a manager", "[unit]") {
    Ward ward;
    foundWithStaff(ward);
    const auto nurse = personLine("er-2", 1, "lk", "nurse");
    CHECK(refusalOf(ward, "rs", nurse) == "safeguard.new_to_people");
    // That a station is heard otherwise makes no difference.
    REQUIRE(bring(ward, "rs", noteLine("er-3", 1)));
    CHECK(refusalOf(ward, "rs", personLine("er-3", 2, "lk", "nurse")) ==
          "safeguard.new_to_people");
    const auto brought = bring(ward, "mt", nurse);
    REQUIRE(brought);
    CHECK(brought->remarks.empty());
    CHECK(bring(ward, "rs", personLine("er-2", 2, "lk", "biomed")));
    CHECK(bring(ward, "rs", nurse));  // is here already
}

TEST_CASE("what changes who may enter persons is brought in by one who may, and asked about",
          "[unit]") {
    Ward ward;
    foundWithStaff(ward);
    REQUIRE(bring(ward, "mt", personLine("er-2", 1, "lk", "nurse")));
    for (const auto& change : {personLine("er-2", 2, "rs", "lead"),
                               personLine("er-2", 2, "mt", "nurse"),
                               personLine("er-2", 2, "rs", "lead", "2027-03-02T15:30:00Z")}) {
        CHECK(refusalOf(ward, "rs", change) == "safeguard.change_by_other");
        CHECK(refusalOf(ward, "mt", change) == "safeguard.change_not_meant");
    }
    const auto change = personLine("er-2", 2, "rs", "lead") + personLine("er-2", 3, "mt", "nurse");
    const auto meant = bring(ward, "mt", change, true);
    REQUIRE(meant);
    CHECK(meant->remarks == std::vector<std::string>{
                                "From now on rs may enter persons. Mt may enter persons no "
                                "longer."});
}

namespace {

// Mt, whom bk makes a lead or a nurse while mt brings in persons.
struct MovedRoles : Ward {
    MovedRoles() {
        foundWithStaff(*this);
        REQUIRE(enter(*this, "bk", {"lead"}));
        (void)as("bk");
    }
    void makeMt(const std::string& role) {
        clock.advance({60'000});
        station::Entry entry{as("bk"), "person"};
        entry.body = personBody("mt", role);
        REQUIRE(station::writeEntry(surroundings, logbook, entry));
    }
    station::Result<station::ImportAnswer> bring(const station::Writer& by,
                                                 const std::string& from) {
        return station::importFiles(surroundings, logbook,
                                    {folder.write("in.jsonl", personLine(from, 1, "lk", "nurse"))},
                                    station::Bringer(by));
    }
    // Where the record came in among the others; 0 if it is not here.
    [[nodiscard]] std::int64_t arrivalOf(const logbook::RecordName& name) const {
        const auto file = station::openLogbook(surroundings, logbook, station::Access::Read);
        REQUIRE(file);
        const auto row = file->findRecord(name);
        return row ? row->arrival : 0;
    }
    [[nodiscard]] std::int64_t lastOwn() const {
        const auto file = station::openLogbook(surroundings, logbook, station::Access::Read);
        REQUIRE(file);
        return arrivalOf({"icu-1", file->heads()->at("icu-1").head.seq});
    }
};

}  // namespace

TEST_CASE("what was judged for an import is judged anew where others have written", "[unit]") {
    MovedRoles ward;
    SECTION("while the PIN is typed") {
        station::Writer mt{"mt"};
        int asked = 0;
        mt.ask = [&](const std::string&) {
            ward.makeMt("nurse");
            ++asked;
            return std::optional(secretOf(testPin));
        };
        const auto refused = ward.bring(mt, "er-2");
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == "safeguard.new_to_people");
        CHECK(ward.arrivalOf({"er-2", 1}) == 0);
        CHECK(asked == 1);
    }
    SECTION("in any moment up to the last") {
        // Each time from the same log: what is read of it grows with each station.
        const auto begun = ward.folder.file("begun.logbook");
        ward.makeMt("lead");
        std::filesystem::copy_file(ward.logbook.path, begun);
        const std::string from = "er-2";
        int moment = 1, refused = 0;
        for (bool came = true; came && moment < 200; ++moment) {
            CAPTURE(moment);
            std::filesystem::copy_file(begun, ward.logbook.path,
                                       std::filesystem::copy_options::overwrite_existing);
            const auto mt = ward.as("mt");
            const StatementMoments moments(moment, [&](sqlite3*) { ward.makeMt("nurse"); });
            const auto answer = ward.bring(mt, from);
            came = moments.came();
            const auto brought = ward.arrivalOf({from, 1});
            CHECK(answer.has_value() == (brought > 0));
            if (came && answer) CHECK(brought < ward.lastOwn());
            refused += answer ? 0 : 1;
        }
        CHECK(refused > 5);
        CHECK(moment < 200);
    }
}

TEST_CASE("a change of managers that is brought in is put to the person at the terminal",
          "[unit]") {
    Ward ward;
    foundWithStaff(ward);
    ScriptedTerminal terminal;
    ward.surroundings.terminal = &terminal;
    const auto change = personLine("er-2", 1, "mt", "nurse");
    terminal.answer("no");
    CHECK(refusalOf(ward, "mt", change) == "safeguard.change_not_meant");
    CHECK_THAT(terminal.takeQuestions().front(), Catch::Contains("Nobody would be left"));
    terminal.answer("y");
    CHECK(bring(ward, "mt", change));
}

TEST_CASE("into a log that has nobody who may enter persons anybody brings one", "[unit]") {
    Ward ward;
    foundWithStaff(ward);
    REQUIRE(enter(ward, "mt", {"lead", "chief"}));
    REQUIRE(adopt(ward, policyNaming("chief", "3")));
    ward.clock.set(utc(2026, 3, 2, 17));
    REQUIRE(bring(ward, "mt", personLine("er-2", 1, "mt", "lead", "2026-03-02T16:00:01Z"), true));
    const auto edition = policyNaming("lead", "4");
    const auto adopted = logbook::json::canonical(logbook::json::Object{
                             {"station", "er-2"}, {"seq", 2}, {"at", "2026-03-02T16:00:02Z"},
                             {"entered", "2026-03-02T16:00:02Z"}, {"by", "mt"}, {"device", ""},
                             {"kind", "adopt"},
                             {"body", logbook::json::Object{{"edition", "4"},
                                                            {"text", edition}}}}) +
                         "\n";
    CHECK(bring(ward, "rs", adopted, true));
}
