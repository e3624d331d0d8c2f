// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Why lines are refused: every code, and every field at fault.
#include "logbook/record_reader.h"

#include "sample_records.h"

#include <catch2/catch.hpp>

#include <ostream>

namespace logbook {

std::ostream& operator<<(std::ostream& out, const RecordFault& fault) {
    return out << static_cast<int>(fault.code) << " at '" << fault.field << "': '" << fault.detail
               << "'";
}

}  // namespace logbook

using namespace logbook;
using Code = RecordFault::Code;

namespace {

RecordFaults faultsOf(const std::string& line) {
    const auto record = readRecord(line);
    return record ? RecordFaults() : record.error();
}

std::string spoiled(Kind kind, std::string_view path, std::string_view value) {
    return sample::with(sample::lineOf(kind), path, value);
}

// The one fault of a sample in which the member at `path` was replaced.
void checkFault(Kind kind, std::string_view path, std::string_view value,
                const RecordFault& expected) {
    INFO(kindName(kind) << " with " << path << " = " << value);
    CHECK(faultsOf(spoiled(kind, path, value)) == RecordFaults{expected});
}

void checkTextFault(Kind kind, const std::string& path, const std::string& text, Code code) {
    checkFault(kind, path, '"' + text + '"', {code, path, text, 0});
}

void checkJsonFault(const std::string& line, Code code) {
    INFO(line);
    const RecordFaults faults = faultsOf(line);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].code == code);
    CHECK(faults[0].field.empty());
}

}  // namespace

TEST_CASE("A line that is no JSON says where", "[unit]") {
    const RecordFaults faults = faultsOf(R"({"station":"icu-1",})");
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].code == Code::NotJson);
    CHECK(faults[0].offset == 19);
    CHECK_FALSE(faults[0].detail.empty());
    checkJsonFault("", Code::NotJson);
}

TEST_CASE("What JSON allows and a record does not", "[unit]") {
    checkJsonFault("[]", Code::NotAnObject);
    checkJsonFault("null", Code::NotAnObject);
    checkJsonFault(R"({"x":"\ud800"})", Code::BadText);
    checkJsonFault(R"({"x":"\u0000"})", Code::BadText);
    checkJsonFault("{\"x\":\"\xff\"}", Code::BadText);
    checkJsonFault(R"({"x":1e999})", Code::BadNumber);
    checkJsonFault(R"({"x":9007199254740993})", Code::BadNumber);
    checkJsonFault(R"({"x":)" + std::string(64, '[') + std::string(64, ']') + "}", Code::TooDeep);
    checkJsonFault(std::string(1048577, ' '), Code::TooLong);
    CHECK(faultsOf(R"({"seq":1,"seq":1})")[0] == RecordFault{Code::DuplicateName, "", "seq", 14});
}

TEST_CASE("A line that grows beyond 1 MiB in its canonical form is refused", "[unit]") {
    std::string numbers = "[1e20";
    while (numbers.size() < 300000) {
        numbers += ",1e20";
    }
    CHECK(faultsOf(R"({"x":)" + numbers + "]}")[0].code == Code::TooLong);
}

TEST_CASE("Every required field of the envelope is missed", "[exhaustive]") {
    for (const char* field :
         {"station", "seq", "at", "entered", "by", "device", "kind", "body"}) {
        const RecordFaults expected{{Code::Missing, field, "", 0}};
        CHECK(faultsOf(sample::without(sample::lineOf(Kind::Note), field)) == expected);
        CHECK(faultsOf(spoiled(Kind::Note, field, "null")) == expected);
    }
}

TEST_CASE("Every required field of a body is missed", "[exhaustive]") {
    const std::vector<std::pair<Kind, std::vector<std::string>>> required{
        {Kind::Adopt, {"edition", "text"}},
        {Kind::Person, {"person", "name", "roles"}},
        {Kind::Notice, {"key", "title", "action", "match"}},
        {Kind::Enrol, {"model", "groups", "features", "commissioned"}},
        {Kind::Retire, {"reason"}},
        {Kind::Group, {"group"}},
        {Kind::Power, {"on"}},
        {Kind::Move, {"location"}},
        {Kind::Sighted, {"location"}},
        {Kind::Software, {"version"}},
        {Kind::Fit, {"position", "part"}},
        {Kind::Remove, {"position"}},
        {Kind::Reprocess, {"level"}},
        {Kind::Soil, {"reason"}},
        {Kind::Check, {"check", "outcome", "measures.leak.value", "measures.leak.unit"}},
        {Kind::Alarm, {"code"}},
        {Kind::Fault, {"code"}},
        {Kind::Clear, {"code"}},
        {Kind::Withdraw, {"hold", "reason"}},
        {Kind::Release, {"hold"}},
        {Kind::Waive, {"finding", "subject", "until", "reason"}},
        {Kind::NoticeDone, {"key"}},
        {Kind::Service, {"service", "outcome"}},
        {Kind::UsePause, {"reason"}},
        {Kind::Note, {"text"}},
        {Kind::Review, {"target", "disposition", "text"}},
        {Kind::Sign, {"scope", "known_at", "digest", "heads"}},
        {Kind::Strike, {"target", "reason"}}};
    for (const auto& [kind, fields] : required) {
        for (const auto& field : fields) {
            INFO(kindName(kind) << ": " << field);
            CHECK(faultsOf(sample::without(sample::lineOf(kind), "body." + field)) ==
                  RecordFaults{{Code::Missing, "body." + field, "", 0}});
        }
    }
}

TEST_CASE("No field of any kind takes a value of a wrong type", "[exhaustive]") {
    for (int index = 0; index < kindCount; ++index) {
        const auto kind = static_cast<Kind>(index);
        const std::string line = sample::lineOf(kind);
        const auto value = json::parse(line);
        REQUIRE(value);
        for (const auto& member : *value->find("body")->object()) {
            const std::string path = "body." + member.first;
            INFO(kindName(kind) << ": " << path);
            const char* wrong = member.second.object() != nullptr ? "[]" : "{}";
            const RecordFaults faults = faultsOf(sample::with(line, path, wrong));
            REQUIRE(faults.size() == 1);
            CHECK(faults[0].code == Code::WrongType);
            CHECK(faults[0].field == path);
        }
    }
}

TEST_CASE("A wrong type says what is wanted", "[unit]") {
    checkFault(Kind::Note, "by", "5", {Code::WrongType, "by", "text", 0});
    checkFault(Kind::Note, "seq", R"("1")", {Code::WrongType, "seq", "number", 0});
    checkFault(Kind::Note, "kind", "[]", {Code::WrongType, "kind", "text", 0});
    checkFault(Kind::Note, "body", "[]", {Code::WrongType, "body", "object", 0});
    checkFault(Kind::Note, "device", "5", {Code::WrongType, "device", "text", 0});
    checkFault(Kind::Note, "confirmed", "1", {Code::WrongType, "confirmed", "true or false", 0});
    checkFault(Kind::Note, "moved_from", "1", {Code::WrongType, "moved_from", "text", 0});
    checkFault(Kind::Person, "body.roles", R"("rt")", {Code::WrongType, "body.roles", "list", 0});
    checkFault(Kind::Fit, "body.part.groups", R"("adult")",
               {Code::WrongType, "body.part.groups", "list", 0});
    checkFault(Kind::Check, "body.measures.leak", "85.5",
               {Code::WrongType, "body.measures.leak", "object", 0});
    checkFault(Kind::Check, "body.measures.leak.value", R"("85")",
               {Code::WrongType, "body.measures.leak.value", "number", 0});
    checkFault(Kind::Person, "body.roles", R"(["rt",5,"chief"])",
               {Code::WrongType, "body.roles.1", "text", 0});
}

TEST_CASE("Station, number and record names are checked", "[unit]") {
    checkTextFault(Kind::Note, "station", "Bad Station", Code::BadStation);
    for (const char* seq : {"0", "-1", "1.5", "9007199254740992"}) {
        checkFault(Kind::Note, "seq", seq, {Code::BadSeq, "seq", seq, 0});
    }
    CHECK(readRecord(spoiled(Kind::Note, "seq", "9007199254740991")));
    checkTextFault(Kind::Note, "moved_from", "icu-1", Code::BadRecordName);
    checkTextFault(Kind::Review, "body.target", "icu-1/0", Code::BadRecordName);
    checkTextFault(Kind::Strike, "body.target", "icu-1/01", Code::BadRecordName);
}

TEST_CASE("Instants and days are checked", "[unit]") {
    checkTextFault(Kind::Note, "at", "2026-03-02", Code::BadInstant);
    checkTextFault(Kind::Note, "entered", "2026-03-02T14:00:00+01:00", Code::BadInstant);
    checkTextFault(Kind::Waive, "body.until", "2026-03-03", Code::BadInstant);
    checkTextFault(Kind::Sign, "body.known_at", "", Code::BadInstant);
    checkTextFault(Kind::Person, "body.until", "2026-02-29", Code::BadDay);
    checkTextFault(Kind::Enrol, "body.commissioned", "2026-1-1", Code::BadDay);
    checkTextFault(Kind::Enrol, "body.return_by", "", Code::BadDay);
    checkTextFault(Kind::Fit, "body.part.expires", "2026-13-01", Code::BadDay);
    checkTextFault(Kind::Sign, "body.month", "2026-13", Code::BadDay);
}

TEST_CASE("Keys are checked", "[unit]") {
    const std::vector<std::pair<Kind, const char*>> keys{
        {Kind::Notice, "body.key"},         {Kind::Notice, "body.match.position"},
        {Kind::Group, "body.group"},        {Kind::Fit, "body.position"},
        {Kind::Remove, "body.position"},    {Kind::Check, "body.check"},
        {Kind::Alarm, "body.code"},         {Kind::Fault, "body.code"},
        {Kind::Clear, "body.code"},         {Kind::Withdraw, "body.hold"},
        {Kind::Release, "body.hold"},       {Kind::Waive, "body.finding"},
        {Kind::Waive, "body.subject"},      {Kind::NoticeDone, "body.key"},
        {Kind::Service, "body.service"},    {Kind::UseStart, "body.group"}};
    for (const auto& [kind, path] : keys) {
        checkTextFault(kind, path, "Not a key", Code::BadKey);
    }
    const std::vector<std::pair<Kind, std::string>> lists{
        {Kind::Person, "body.roles"},         {Kind::Enrol, "body.groups"},
        {Kind::Enrol, "body.features"},       {Kind::Fit, "body.part.groups"},
        {Kind::Check, "body.conditions"},     {Kind::Reprocess, "body.positions"}};
    for (const auto& [kind, path] : lists) {
        checkFault(kind, path, R"(["fine","Not a key"])",
                   {Code::BadKey, path + ".1", "Not a key", 0});
    }
    checkFault(Kind::Check, "body.measures", R"({"Leak":{"value":1,"unit":"mL"}})",
               {Code::BadKey, "body.measures.Leak", "Leak", 0});
}

TEST_CASE("Names are checked", "[unit]") {
    const std::vector<std::pair<Kind, const char*>> names{
        {Kind::Note, "by"},                 {Kind::Note, "device"},
        {Kind::Note, "done_by"},            {Kind::Note, "witness"},
        {Kind::Person, "body.person"},      {Kind::Enrol, "body.model"},
        {Kind::Enrol, "body.asset"},
        {Kind::Enrol, "body.location"},     {Kind::Move, "body.location"},
        {Kind::Sighted, "body.location"},   {Kind::Fit, "body.part.serial"},
        {Kind::Fit, "body.part.lot"},       {Kind::Fit, "body.part.model"},
        {Kind::UseStart, "body.location"}};
    for (const auto& [kind, path] : names) {
        checkTextFault(kind, path, "two  blanks", Code::BadName);
    }
    for (const char* list : {"lots", "serials", "part_models", "device_models", "devices"}) {
        const std::string path = std::string("body.match.") + list;
        checkFault(Kind::Notice, path, R"(["ok",""])", {Code::BadName, path + ".1", "", 0});
    }
    for (const char* path : {"by", "done_by", "witness"}) {
        checkTextFault(Kind::Note, path, "", Code::BadName);
    }
}

TEST_CASE("Words and units are checked", "[unit]") {
    checkFault(Kind::Check, "body.outcome", R"("deferred")",
               {Code::BadWord, "body.outcome", "pass, fail, incomplete", 0});
    checkFault(Kind::Service, "body.outcome", R"("incomplete")",
               {Code::BadWord, "body.outcome", "pass, fail, in_use, not_located, deferred", 0});
    checkFault(Kind::Reprocess, "body.level", R"("medium")",
               {Code::BadWord, "body.level", "low, high, sterile", 0});
    checkFault(Kind::Notice, "body.action", R"("burn")",
               {Code::BadWord, "body.action", "stop_use, inspect, information", 0});
    checkFault(Kind::Fit, "body.part.reuse", R"("often")",
               {Code::BadWord, "body.part.reuse",
                "single_use, single_patient, reusable, permanent", 0});
    checkTextFault(Kind::Check, "body.measures.leak.unit", "ml/min", Code::BadUnit);
    checkTextFault(Kind::Note, "kind", "telepathy", Code::UnknownKind);
}

TEST_CASE("A record about the future is refused", "[unit]") {
    checkFault(Kind::Note, "entered", R"("2026-03-02T13:59:59.999Z")",
               {Code::EnteredBeforeAt, "entered", "2026-03-02T14:00:00Z", 0});
    checkFault(Kind::Adopt, "entered", R"("2026-03-02T13:00:00Z")",
               {Code::EnteredBeforeAt, "entered", "2026-03-02T14:00:00Z", 0});
}

TEST_CASE("Kinds that cannot be backdated are refused when they are", "[exhaustive]") {
    for (int index = 0; index < kindCount; ++index) {
        const auto kind = static_cast<Kind>(index);
        const std::string late = spoiled(kind, "entered", R"("2026-03-02T14:00:00.001Z")");
        const RecordFaults expected =
            mustBeTimely(kind)
                ? RecordFaults{{Code::NotTimely, "at", std::string(kindName(kind)), 0}}
                : RecordFaults{};
        INFO(kindName(kind));
        CHECK(faultsOf(late) == expected);
    }
}

TEST_CASE("A device is given or not, as the kind wants", "[exhaustive]") {
    for (int index = 0; index < kindCount; ++index) {
        const auto kind = static_cast<Kind>(index);
        INFO(kindName(kind));
        if (isDepartmentWide(kind)) {
            checkTextFault(kind, "device", "KB-0001", Code::DeviceUnwanted);
        } else if (kind == Kind::Reprocess) {
            checkFault(kind, "device", R"("")", {Code::NoParts, "body.parts", "", 0});
        } else if (kind == Kind::Strike) {
            CHECK(faultsOf(spoiled(kind, "device", R"("")")).empty());
        } else {
            checkFault(kind, "device", R"("")",
                       {Code::DeviceWanted, "device", std::string(kindName(kind)), 0});
        }
    }
}

TEST_CASE("Reprocessing names what was reprocessed", "[unit]") {
    const RecordFault none{Code::NoParts, "body.positions", "", 0};
    checkFault(Kind::Reprocess, "body.positions", "[]", none);
    CHECK(faultsOf(sample::without(sample::lineOf(Kind::Reprocess), "body.positions")) ==
          RecordFaults{none});
    const std::string loose = spoiled(Kind::Reprocess, "device", R"("")");
    CHECK(faultsOf(sample::with(loose, "body.parts", "[]")) ==
          RecordFaults{{Code::NoParts, "body.parts", "", 0}});
    CHECK(faultsOf(sample::with(loose, "body.parts", R"([{"position":"circuit"},7])")) ==
          RecordFaults{{Code::Missing, "body.parts.0.serial", "", 0},
                       {Code::WrongType, "body.parts.1", "object", 0}});
    // With a device that is at fault nothing is asked of either list.
    CHECK(faultsOf(sample::without(spoiled(Kind::Reprocess, "device", "7"), "body.positions")) ==
          RecordFaults{{Code::WrongType, "device", "text", 0}});
}

TEST_CASE("The heads of a signature are checked", "[unit]") {
    checkFault(Kind::Sign, "body.heads", R"({"ICU":[1,"ab"]})",
               {Code::BadStation, "body.heads.ICU", "ICU", 0});
    checkFault(Kind::Sign, "body.heads", R"({"icu-1":{}})",
               {Code::WrongType, "body.heads.icu-1", "list", 0});
    checkFault(Kind::Sign, "body.heads", R"({"icu-1":[1]})",
               {Code::WrongType, "body.heads.icu-1", "list", 0});
    checkFault(Kind::Sign, "body.heads", R"({"icu-1":[0,"ab"]})",
               {Code::BadSeq, "body.heads.icu-1.0", "0", 0});
    checkFault(Kind::Sign, "body.heads", R"({"icu-1":[1,2]})",
               {Code::WrongType, "body.heads.icu-1.1", "text", 0});
    CHECK(readRecord(spoiled(Kind::Sign, "body.heads", "{}")));
}

TEST_CASE("All faults of a line are told at once", "[unit]") {
    const RecordFaults expected{
        {Code::BadStation, "station", "ICU", 0},  {Code::Missing, "seq", "", 0},
        {Code::BadInstant, "at", "noon", 0},      {Code::WrongType, "by", "text", 0},
        {Code::BadName, "witness", " x", 0},      {Code::DeviceWanted, "device", "check", 0},
        {Code::BadKey, "body.check", "Leak", 0},  {Code::Missing, "body.outcome", "", 0},
        {Code::BadUnit, "body.measures.leak.unit", "litres", 0}};
    CHECK(faultsOf(R"({"station":"ICU","at":"noon","entered":"2026-03-02T14:00:00Z","by":7,)"
                   R"("witness":" x","device":"","kind":"check","body":{"check":"Leak",)"
                   R"("measures":{"leak":{"value":1,"unit":"litres"}}}})") == expected);
}

TEST_CASE("A long text is cut in a fault, between characters", "[unit]") {
    std::string key = "a";
    for (int count = 0; count < 300; ++count) {
        key += "é";
    }
    const RecordFaults faults = faultsOf(spoiled(Kind::Group, "body.group", '"' + key + '"'));
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].code == Code::BadKey);
    CHECK(faults[0].detail == key.substr(0, 199) + "…");
}

TEST_CASE("A value that could not be read back as a line is no record", "[unit]") {
    const auto with = [](json::Value text) {
        auto value = *json::parse(sample::lineOf(Kind::Note));
        value.find("body")->object()->emplace_back("more", std::move(text));
        const auto record = readRecord(value);
        return record ? RecordFaults() : record.error();
    };
    CHECK(with("caf\xc3\xa9").empty());
    CHECK(with("caf\xe9") == RecordFaults{{Code::BadText, "body.more", "", 0}});
    CHECK(with(std::string("nothing\0more", 12)) ==
          RecordFaults{{Code::BadText, "body.more", "", 0}});
    CHECK(with(json::Array{"good", json::Array{"\xff"}}) ==
          RecordFaults{{Code::BadText, "body.more.1.0", "", 0}});
    CHECK(with(json::Object{{"caf\xe9", 1}}) ==
          RecordFaults{{Code::BadText, "body.more", "", 0}});

    json::Value deep;
    for (int depth = 0; depth < 62; ++depth) {
        deep = json::Array{std::move(deep)};
    }
    CHECK(with(deep).empty());
    deep = json::Array{std::move(deep)};
    REQUIRE(with(deep).size() == 1);
    CHECK(with(deep)[0].code == Code::TooDeep);
    REQUIRE(with(json::Object{{"twin", 1}, {"twin", 2}}).size() == 1);
    CHECK(with(json::Object{{"twin", 1}, {"twin", 2}})[0].code == Code::DuplicateName);
}
