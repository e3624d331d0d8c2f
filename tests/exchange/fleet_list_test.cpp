// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fleet lists: what is taken from a row, and every way in which a list or a row can be wrong.
#include "exchange/fleet_list.h"

#include "exchange/csv.h"

#include <algorithm>
#include <catch2/catch.hpp>

using exchange::FleetFault;
using Code = FleetFault::Code;

namespace {

const std::string head = "serial,model,groups,commissioned,asset,label,location,return_by\n";
const std::string good = "KB-0001,Larch 3,adult,2026-03-02,,,,\n";

exchange::FleetList listOf(const std::string& bytes) {
    auto list = exchange::readFleetList(bytes);
    REQUIRE(list);
    return *std::move(list);
}

// Of the file as a whole.
std::vector<FleetFault> faultsIn(const std::string& bytes) {
    const auto list = exchange::readFleetList(bytes);
    REQUIRE_FALSE(list);
    return list.error();
}

// Of the one row that is refused, with a good one before and behind it.
std::vector<FleetFault> faultsOfRow(const std::string& row) {
    const auto list =
        listOf(head + "KB-0007,Larch 3,adult,2026-03-02,,,,\n" + row +
               "\nKB-0008,Larch 3,adult,2026-03-02,,,,\n");
    CAPTURE(row);
    CHECK(list.rows.size() == 2);
    REQUIRE(list.refused.size() == 1);
    CHECK(list.refused.front().row.line == 3);
    return list.refused.front().faults;
}

}  // namespace

TEST_CASE("A row is a unit with all that its columns state", "[unit]") {
    const auto list = listOf(
        "serial,model,groups,features,commissioned,label,asset,maker,udi,location,owner,"
        "return_by\r\n"
        "KB-0001,Larch 3, pediatric ;adult;adult,co2;hot_swap,2026-03-02,\"Unit \"\"1\"\"\",A-1,"
        "\"Rowan, Sons\",(01)0952,ICU room 9,Kestrel Bay,2026-12-31\r\n");
    REQUIRE(list.rows.size() == 1);
    CHECK(list.refused.empty());
    CHECK(list.ignored.empty());
    const auto& row = list.rows.front();
    CHECK(row.line == 2);
    CHECK(row.serial == "KB-0001");
    CHECK(row.unit.model == "Larch 3");
    CHECK(row.unit.groups == std::vector<std::string>{"adult", "pediatric"});
    CHECK(row.unit.features == std::vector<std::string>{"co2", "hot_swap"});
    CHECK(logbook::toText(row.unit.commissioned) == "2026-03-02");
    CHECK(row.unit.label == "Unit \"1\"");
    CHECK(row.unit.asset == "A-1");
    CHECK(row.unit.maker == "Rowan, Sons");
    CHECK(row.unit.udi == "(01)0952");
    CHECK(row.unit.location == "ICU room 9");
    CHECK(row.unit.owner == "Kestrel Bay");
    CHECK(row.unit.returnBy == "2026-12-31");
}

TEST_CASE("Columns in any order, unknown ones named, cells left empty", "[unit]") {
    const auto list = listOf("\xEF\xBB\xBF"
                             "notes, Commissioned ,SERIAL,,model,groups,room,asset\n"
                             "\"two\nlines \x01\",2026-03-02, KB-0001 ,,Larch 3,adult,,\n"
                             ",,,,,,, \n"
                             "\n"
                             ",2026-03-02,KB-0002,,Larch 3,adult,,\n");
    CHECK(list.ignored == std::vector<std::string>{"notes", "room"});
    REQUIRE(list.rows.size() == 2);
    CHECK(list.rows[0].serial == "KB-0001");
    CHECK_FALSE(list.rows[0].unit.asset);
    CHECK(list.rows[0].unit.features.empty());
    CHECK(list.rows[1].line == 6);
    CHECK(listOf(head).rows.empty());
}

TEST_CASE("What makes the whole file no list", "[unit]") {
    using Faults = std::vector<FleetFault>;
    CHECK(faultsIn("") == Faults{{Code::NoHeader}});
    CHECK(faultsIn("\n\n") == Faults{{Code::NoHeader}});
    CHECK(faultsIn("serial;model;groups;commissioned\n") == Faults{{Code::Semicolons}});
    CHECK(faultsIn("serial\tmodel\tgroups\tcommissioned\n") == Faults{{Code::Tabs}});
    CHECK(faultsIn("serial,model\n") ==
          Faults{{Code::ColumnMissing, "groups"}, {Code::ColumnMissing, "commissioned"}});
    CHECK(faultsIn("serial,model,groups,commissioned,asset,Asset\n") ==
          Faults{{Code::ColumnTwice, "asset"}});
    CHECK(faultsIn(head + good + "KB-0002,Larch 3,adult,2026-03-02,,St\xE9 5,,\n") ==
          Faults{{Code::NotUtf8, "", "3"}});
    CHECK(faultsIn(std::string("\xFF\xFEs\0e\0", 6)) == Faults{{Code::NotUtf8, "", "1"}});
    CHECK(faultsIn("serial,\"model\n") == Faults{{Code::OpenQuote, "", "2"}});
    CHECK(faultsIn("serial,mo\"del\n") == Faults{{Code::StrayQuote, "", "2"}});
    CHECK(faultsIn(std::string(exchange::longestFleetList + 1, 'a')) == Faults{{Code::TooLong}});
    CHECK(listOf(head + std::string(exchange::longestFleetList - head.size(), '\n')).rows.empty());
}

TEST_CASE("Every row that is wrong is told with its reason", "[unit]") {
    struct Example {
        std::string row;
        FleetFault fault;
    };
    const std::string long65(65, 'a');
    const std::string long201(exchange::longestFleetText + 1, 'a');
    const std::vector<Example> examples{
        {",Larch 3,adult,2026-03-02,,,,", {Code::Missing, "serial"}},
        {"KB-1,,adult,2026-03-02,,,,", {Code::Missing, "model"}},
        {"KB-1,Larch 3,,2026-03-02,,,,", {Code::Missing, "groups"}},
        {"KB-1,Larch 3,; ;,2026-03-02,,,,", {Code::Missing, "groups"}},
        {"KB-1,Larch 3,adult,,,,,", {Code::Missing, "commissioned"}},
        {"KB-1,Larch 3,adult,2026-02-30,,,,", {Code::BadDay, "commissioned", "2026-02-30"}},
        {"KB-1,Larch 3,adult,02/03/2026,,,,", {Code::BadDay, "commissioned", "02/03/2026"}},
        {"KB-1,Larch 3,adult,2026-03-02,,,,2026-3-2", {Code::BadDay, "return_by", "2026-3-2"}},
        {"KB  1,Larch 3,adult,2026-03-02,,,,", {Code::BadName, "serial", "KB  1"}},
        {long65 + ",Larch 3,adult,2026-03-02,,,,", {Code::BadName, "serial", long65}},
        {"KB-1,Larch\xC2\xA0" "3,adult,2026-03-02,,,,",
         {Code::BadName, "model", "Larch\xC2\xA0" "3"}},
        {"KB-1,Larch 3,Adult,2026-03-02,,,,", {Code::BadKey, "groups", "Adult"}},
        {"KB-1,Larch 3,adult;a b,2026-03-02,,,,", {Code::BadKey, "groups", "a b"}},
        {"\"KB\n1\",Larch 3,adult,2026-03-02,,,,", {Code::ControlCharacter, "serial"}},
        {"KB-1,Larch 3,adult,2026-03-02,,a\xC2\x85z,,", {Code::ControlCharacter, "label"}},
        {"KB-1,Larch 3,adult,2026-03-02,,a\x7Fz,,", {Code::ControlCharacter, "label"}},
        {"KB-1,Larch 3,adult,2026-03-02,,\"a\nz\",,", {Code::ControlCharacter, "label"}},
        {"KB-1,Larch 3,adult,2026-03-02,,,\"a\rz\",", {Code::ControlCharacter, "location"}},
        {"KB-1,Larch 3,adult,2026-03-02,," + long201 + ",,", {Code::TooLongText, "label"}},
        {"KB-1,Larch 3,adult,2026-03-02", {Code::CellCount, "", "4"}},
        {"KB-1,Larch 3,adult,2026-03-02,,,,,", {Code::CellCount, "", "9"}},
        {"KB-1,Larch \"3\",adult,2026-03-02,,,,", {Code::StrayQuote, "", "8"}},
        {std::string(exchange::mostCells + 5, ','), {Code::CellCount, "", "1000"}},
    };
    for (const auto& example : examples) {
        CHECK(faultsOfRow(example.row) == std::vector<FleetFault>{example.fault});
    }
    const std::string long200(exchange::longestFleetText, 'a');
    CHECK(listOf(head + "KB-1,Larch 3,adult,2026-03-02,," + long200 + ",,\n").rows.size() == 1);
}

TEST_CASE("Every fault of a row is told, not only the first", "[unit]") {
    const auto faults = faultsOfRow(",,Adult,soon,,,,never");
    std::vector<std::string> columns;
    for (const auto& fault : faults) {
        columns.push_back(fault.column);
    }
    std::ranges::sort(columns);
    CHECK(columns == std::vector<std::string>{"commissioned", "groups", "model", "return_by",
                                              "serial"});
}

TEST_CASE("A quotation mark that is never closed spoils what is behind it only", "[unit]") {
    const auto list = listOf(head + good + "KB-0002,\"Larch 3,adult,2026-03-02,,,,\n" + good);
    CHECK(list.rows.size() == 1);
    REQUIRE(list.refused.size() == 1);
    CHECK(list.refused.front().row.line == 3);
    CHECK(list.refused.front().faults.front().code == Code::OpenQuote);
}

TEST_CASE("Two rows with one number are both refused", "[unit]") {
    const auto list = listOf(head +
                             "KB-0001,Larch 3,adult,2026-03-02,A-1,,,\n"
                             "KB-0001,Larch 3,adult,2026-03-02,A-2,,,\n"
                             "KB-0003,Larch 3,adult,2026-03-02,A-3,,,\n"
                             "KB-0004,Larch 3,Adult,2026-03-02,A-3,,,\n"
                             "KB-0005,Larch 3,adult,2026-03-02,KB-0006,,,\n"
                             "KB-0006,Larch 3,adult,2026-03-02,,,,\n"
                             "KB-0007,Larch 3,adult,2026-03-02,KB-0007,,,\n");
    REQUIRE(list.rows.size() == 1);
    CHECK(list.rows.front().serial == "KB-0007");
    const std::vector<std::vector<FleetFault>> wanted{
        {{Code::NumberTwice, "serial", "3"}},
        {{Code::NumberTwice, "serial", "2"}},
        {{Code::NumberTwice, "asset", "5"}},
        {{Code::BadKey, "groups", "Adult"}, {Code::NumberTwice, "asset", "4"}},
        {{Code::NumberTwice, "asset", "7"}},
        {{Code::NumberTwice, "serial", "6"}},
    };
    REQUIRE(list.refused.size() == wanted.size());
    for (std::size_t place = 0; place < wanted.size(); ++place) {
        CHECK(list.refused[place].faults == wanted[place]);
    }
}

TEST_CASE("A list has ten thousand units at most", "[unit]") {
    std::string bytes = head;
    for (std::size_t unit = 0; unit < exchange::mostFleetRows; ++unit) {
        bytes += "U" + std::to_string(unit) + ",Larch 3,adult,2026-03-02,,,,\n";
    }
    CHECK(listOf(bytes).rows.size() == exchange::mostFleetRows);
    CHECK(faultsIn(bytes + good).front().code == Code::TooManyRows);
}
