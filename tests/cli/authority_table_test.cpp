// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Each role by each kind by each way into a logbook: the use case of the station, the command line,
// and a file from elsewhere. Refused with the sentence that says who may, or kept without effect
// and listed in the month; nothing in between.
#include "cli/authority_table.h"

#include "cli/program.h"
#include "report/board.h"
#include "rules/month.h"
#include "station/answers.h"
#include "station/correction.h"
#include "station/import.h"
#include "station/upkeep.h"

#include <set>
#include <sstream>

using namespace support;
namespace json = logbook::json;

namespace {

// A ward that is found once; each try is made on a copy of its logbook.
struct Table {
    Ward ward;
    std::string founded;
    Table() {
        foundTable(ward);
        founded = ward.bytes();
    }
    void restore() const { ward.folder.write("ward.logbook", founded); }
    [[nodiscard]] std::vector<TableKind> kinds() const { return tableKinds(tablePolicy("2")); }
};

// What must be said to somebody who may not: who may, by role and by name.
void checkSentence(const words::Notice& notice, const std::string& kind, const std::string& role) {
    CHECK(notice.says.starts_with(words::capitalized(role) + " may not "));
    for (const auto& allowed : tableAuthority.at(kind)) {
        CHECK(notice.action.find(allowed + " (") != std::string::npos);
    }
    CHECK(notice.action.find("Morgan Thistle") != std::string::npos);
}

// Anomalies that the month lists of the last record of the log.
std::set<std::string> listedOf(const Ward& ward, const std::string& station) {
    const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
    REQUIRE(log);
    const auto index = log->log.find({station, 1});
    REQUIRE(index);
    const auto month = rules::month(
        log->log, {std::chrono::year(2026) / std::chrono::March, std::nullopt});
    REQUIRE(month);
    std::set<std::string> names;
    for (const auto& anomaly : month->anomalies) {
        if (anomaly.record == *index) {
            names.emplace(rules::name(anomaly.code));
        }
    }
    return names;
}

std::string lineOf(const TableKind& kind, const std::string& by, const std::string& station,
                   json::Object more = {}) {
    json::Object record{{"station", station},
                        {"seq", 1},
                        {"at", "2026-03-02T15:30:00Z"},
                        {"entered", "2026-03-02T15:30:00Z"},
                        {"by", by},
                        {"device", kind.device},
                        {"kind", kind.kind},
                        {"body", kind.body}};
    for (auto& field : more) {
        record.push_back(std::move(field));
    }
    return json::canonical(record) + "\n";
}

void import(Ward& ward, const std::string& line) {
    const auto done = station::importFiles(ward.surroundings, ward.logbook,
                                           {ward.folder.write("in.jsonl", line)}, ward.as("mt"));
    INFO((done ? "" : done.error().notice.text()));
    REQUIRE(done);
}

TableKind kindOf(const Table& table, const std::string& name) {
    for (const auto& kind : table.kinds()) {
        if (kind.kind == name) {
            return kind;
        }
    }
    throw std::runtime_error("no kind " + name);
}

struct Called {
    int status = 0;
    std::string error;
};

Called call(Table& table, std::vector<std::string> words) {
    ScriptedTerminal terminal;
    auto surroundings = table.ward.surroundings;
    surroundings.terminal = &terminal;
    std::ostringstream out;
    std::ostringstream error;
    const int status = cli::run(words, surroundings, {out, error});
    return {status, error.str()};
}

// The words of the command that writes that kind; none where no command does.
std::vector<std::string> wordsOf(Table& table, const TableKind& kind, const std::string& by) {
    const auto logbook = table.ward.logbook.path.string();
    if (kind.kind == "adopt") {
        return {"adopt", logbook, table.ward.folder.write("two.toml", tablePolicy("2")).string(),
                "--as", by};
    }
    if (kind.kind == "person") {
        return {"person", logbook, "new", "--name", "new", "--role", "biomed", "--as", by};
    }
    if (kind.kind == "strike") {
        return {"strike", logbook, "icu-1/12", "--reason", "Wrong", "--as", by};
    }
    if (kind.kind == "sign") {
        return {};
    }
    std::vector<std::string> words{"log", logbook, kind.kind};
    if (!kind.device.empty()) {
        words.push_back(kind.device);
    }
    words.insert(words.end(), {"--json", json::canonical(kind.body), "--as", by});
    return words;
}

}  // namespace

TEST_CASE("The table has every kind, and names roles for all that may have them", "[exhaustive]") {
    const auto kinds = tableKinds(tablePolicy("2"));
    REQUIRE(kinds.size() == logbook::kindCount);
    for (int index = 0; index < logbook::kindCount; ++index) {
        CHECK(kinds[static_cast<std::size_t>(index)].kind ==
              logbook::kindName(static_cast<logbook::Kind>(index)));
    }
}

TEST_CASE("At the station each role writes what it may, and is told who may the rest",
          "[exhaustive]") {
    Table table;
    for (const auto& kind : table.kinds()) {
        for (const auto& role : tableRoles) {
            CAPTURE(kind.kind, role);
            table.restore();
            const station::Entry entry{table.ward.as(role), kind.kind, kind.device, kind.body};
            const auto written =
                station::writeEntry(table.ward.surroundings, table.ward.logbook, entry);
            if (tableAllows(kind.kind, role)) {
                INFO((written ? "" : written.error().notice.text()));
                CHECK(written);
                continue;
            }
            REQUIRE_FALSE(written);
            CHECK(written.error().code == "refusal.roles");
            checkSentence(written.error().notice, kind.kind, role);
            CHECK((table.ward.bytes() == table.founded));
        }
    }
}

TEST_CASE("At the station nobody writes under a name what waits for its PIN", "[exhaustive]") {
    Table table;
    for (const auto& kind : table.kinds()) {
        for (const auto& role : tableRoles) {
            CAPTURE(kind.kind, role);
            table.restore();
            const station::Entry entry{role, kind.kind, kind.device, kind.body};
            const auto written =
                station::writeEntry(table.ward.surroundings, table.ward.logbook, entry);
            CHECK(written.has_value() == !kind.waits);
            if (!written) {
                CHECK(written.error().code == "sign_in.no_pin_given");
                CHECK((table.ward.bytes() == table.founded));
            } else {
                CHECK_FALSE(written->confirmed);
            }
        }
    }
}

TEST_CASE("On the command line each role writes what it may and no more", "[exhaustive]") {
    Table table;
    for (const auto& kind : table.kinds()) {
        for (const auto& role : tableRoles) {
            const auto words = wordsOf(table, kind, role);
            if (words.empty()) {
                continue;
            }
            CAPTURE(kind.kind, role);
            table.restore();
            const auto called = call(table, words);
            CAPTURE(called.error);
            CHECK(called.status == (tableAllows(kind.kind, role) ? 0 : 2));
            if (!tableAllows(kind.kind, role)) {
                CHECK(called.error.find(" may not ") != std::string::npos);
                CHECK(called.error.find("Ask one of these to record it: ") != std::string::npos);
                CHECK((table.ward.bytes() == table.founded));
            }
        }
    }
}

// All that is so of units and people, but which record was the last on a unit.
std::string factsOf(const Ward& ward) {
    const auto stands = station::wholeStanding(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    auto board = report::toJson(station::board(ward.surroundings, *stands));
    for (auto& row : *board.array()) {
        std::erase_if(*row.object(), [](const auto& field) { return field.first == "last"; });
    }
    std::string facts = json::canonical(board) + " edition " + stands->state.rulebook->edition;
    for (const auto& [key, known] : stands->state.persons) {
        facts += " " + key + ":";
        for (const auto& role : known.person.roles) {
            facts += role + ",";
        }
    }
    for (const auto& [key, known] : stands->state.notices) {
        facts += " notice " + key;
    }
    return facts;
}

TEST_CASE("From a file each record is taken, and listed where its writer may not", "[exhaustive]") {
    Table table;
    table.ward.clock.advance(logbook::Duration{3'600'000});
    const auto before = factsOf(table.ward);
    for (const auto& kind : table.kinds()) {
        for (const auto& role : tableRoles) {
            CAPTURE(kind.kind, role);
            table.restore();
            import(table.ward, lineOf(kind, role, "er-2"));
            CHECK((listedOf(table.ward, "er-2").count("unauthorised") == 1) ==
                  !tableAllows(kind.kind, role));
            // Listed, and without effect.
            if (!tableAllows(kind.kind, role)) {
                CHECK(factsOf(table.ward) == before);
            }
        }
    }
}

TEST_CASE("What is forged in a file is refused, or without effect and listed", "[unit]") {
    Table table;
    auto& ward = table.ward;
    // By somebody whom the log does not know.
    import(ward, lineOf(kindOf(table, "clear"), "ghost", "er-2"));
    CHECK(listedOf(ward, "er-2").count("unauthorised") == 1);
    // A person who would make themselves a manager, and what they write then.
    table.restore();
    auto person = kindOf(table, "person");
    person.body = Ward::personBody("ghost", "lead");
    import(ward, lineOf(person, "ghost", "er-2"));
    CHECK(listedOf(ward, "er-2").count("unauthorised") == 1);
    CHECK(station::signIn(ward.surroundings, ward.logbook, "ghost", secretOf(testPin))
              .error()
              .code == "sign_in.unknown");
    // A person before the first one.
    table.restore();
    auto early = lineOf(person, "ghost", "er-2");
    for (auto place = early.find("2026-03-02T15:30"); place != std::string::npos;
         place = early.find("2026-03-02T15:30")) {
        early.replace(place, 16, "2026-03-01T15:30");
    }
    const auto refused = [&](const std::string& line) {
        const auto done = station::importFiles(
            ward.surroundings, ward.logbook, {ward.folder.write("in.jsonl", line)}, ward.as("mt"));
        REQUIRE_FALSE(done);
        CHECK((ward.bytes() == table.founded));
        return done.error().code;
    };
    CHECK(refused(early) == "trouble.first_changed");
    // Under this station's own name: what it has not written, and what it has written otherwise.
    auto own = lineOf(kindOf(table, "note"), "lead", "icu-1");
    CHECK(refused(own) == "trouble.fork");
    own.replace(own.find("\"seq\":1,"), 8, "\"seq\":13,");
    CHECK(refused(own) == "import.own_name");
    const auto exported = station::exportRecords(ward.surroundings, ward.logbook, {});
    import(ward, exported->bytes);
}

TEST_CASE("One's own hold is struck by nobody who may not release it", "[unit]") {
    Table table;
    auto& ward = table.ward;
    auto hold = kindOf(table, "withdraw");
    const auto mine = station::writeEntry(
        ward.surroundings, ward.logbook,
        {ward.as("therapist"), hold.kind, hold.device, hold.body});
    REQUIRE(mine);
    const auto struck =
        station::strikeTogether(ward.surroundings, ward.logbook,
                                {ward.as("therapist"), mine->record, false, "Lifted"});
    REQUIRE_FALSE(struck);
    CHECK(struck.error().code == "refusal.roles");
    CHECK(struck.error().notice.action.find("charge") != std::string::npos);
    auto strike = kindOf(table, "strike");
    strike.body = {{"target", toText(mine->record)}, {"reason", "Lifted"}};
    import(ward, lineOf(strike, "therapist", "er-2"));
    CHECK(listedOf(ward, "er-2").count("unauthorised") == 1);
    CHECK(station::strikeTogether(ward.surroundings, ward.logbook,
                                  {ward.as("charge"), mine->record, false, "Lifted"}));
}

TEST_CASE("A witness whom nobody knows lets no check count", "[unit]") {
    Table table;
    auto& ward = table.ward;
    auto check = kindOf(table, "check");
    check.body = {{"check", "second"}, {"outcome", "pass"}};
    station::Entry entry{ward.as("therapist"), check.kind, check.device, check.body};
    entry.witness = "ghost";
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry).error().code ==
          "sign_in.unknown");
    REQUIRE(station::downtimeForms(ward.surroundings, ward.logbook, 7));
    entry.form = "icu-1-F7";  // on paper whoever signed it stands there
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    REQUIRE(written);
    CHECK_FALSE(written->warnings.empty());
    import(ward, lineOf(check, "therapist", "er-2", {{"witness", "ghost"}}));
    const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
    auto state = log->log.stateAt(ward.clock.now() + logbook::Duration{86'400'000},
                                  rules::unlimited);
    const auto& checks = state.device("KB-0001")->checks;
    CHECK_FALSE(checks.at("second").last);
    CHECK(checks.at("second").discounted->record.name.station == "er-2");
}

TEST_CASE("With a wrong or a locked PIN nothing is written but what never waits", "[unit]") {
    Table table;
    for (const bool locked : {false, true}) {
        const store::Credentials credentials(table.ward.logbook.path);
        for (int times = 0; locked && times < 10; ++times) {
            REQUIRE(credentials.tryPin("lead", "1", [&] {
                return table.ward.clock.now() - logbook::Duration{(20 - times) * 60'000};
            }));
            table.founded = table.ward.bytes();
        }
        for (const auto& kind : table.kinds()) {
            CAPTURE(locked, kind.kind);
            table.restore();
            station::Writer writer("lead");
            writer.offered = true;
            writer.ask = [&](const std::string&) {
                return std::optional(secretOf(locked ? testPin : "000001"));
            };
            const auto written =
                station::writeEntry(table.ward.surroundings, table.ward.logbook,
                                    {writer, kind.kind, kind.device, kind.body});
            CHECK(written.has_value() == !kind.waits);
            if (written) {
                CHECK_FALSE(written->confirmed);
                CHECK_FALSE(written->warnings.empty());
            } else {
                CHECK(written.error().code == (locked ? "sign_in.locked" : "sign_in.wrong"));
            }
        }
    }
}
