// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The comparison of answers: a runner that overlooks a difference would make every case pass.
#include "conformance_runner/comparison.h"

#include <catch2/catch.hpp>

using namespace conformance;

namespace {

Value json(std::string_view text) {
    return logbook::json::parse(text).value();
}

std::size_t count(std::string_view expected, std::string_view found) {
    return differences("", json(expected), json(found)).size();
}

Question question(Command command, std::string_view expected) {
    Question result;
    result.command = command;
    result.expected = json(expected);
    return result;
}

bool agrees(const Question& asked, int status, std::string output,
            MonthScope scope = MonthScope::Whole) {
    return judge(asked, {status, std::move(output), "", false}, scope).differences.empty();
}

}  // namespace

TEST_CASE("What is expected must be there and the same, more may be", "[unit]") {
    CHECK(count(R"({"a":1})", R"({"a":1,"b":2})") == 0);
    CHECK(count(R"({"a":1,"b":null})", R"({"a":1})") == 1);
    CHECK(count(R"({"a":null})", R"({"a":false})") == 1);
    CHECK(count(R"({"a":true})", R"({"a":1})") == 1);
    CHECK(count(R"({"a":"x"})", R"({"a":"y"})") == 1);
    CHECK(count(R"({"a":{}})", R"({"a":[]})") == 1);
}

TEST_CASE("Lists have the same length and order", "[unit]") {
    CHECK(count("[1,2]", "[1,2]") == 0);
    CHECK(count("[1,2]", "[2,1]") == 2);
    CHECK(count("[1,2]", "[1,2,3]") == 1);
    CHECK(count("[]", "{}") == 1);
}

TEST_CASE("Numbers agree to a millionth, instants as instants", "[unit]") {
    CHECK(count("1000000", "1000001") == 0);
    CHECK(count("1000000", "1000002") == 1);
    CHECK(count("0", "0.0000009") == 0);
    CHECK(count("0", "0.0000011") == 1);
    CHECK(count(R"("2026-03-02T14:00:00Z")", R"("2026-03-02T14:00:00.000Z")") == 0);
    CHECK(count(R"("2026-03-02T14:00:00Z")", R"("2026-03-02T14:00:00.001Z")") == 1);
}

TEST_CASE("What runs out may come in any order, blockers may not", "[unit]") {
    const auto plan = question(
        Command::Plan, R"({"ready_at":"2026-03-02T14:00:00Z","runs_out":["b","a"],"blockers":[]})");
    CHECK(agrees(plan, 0,
                 R"({"ready_at":"2026-03-02T14:00:00Z","runs_out":["a","b"],"blockers":[]})"));
    CHECK_FALSE(agrees(
        plan, 0, R"({"ready_at":"2026-03-02T14:00:00Z","runs_out":["a","a"],"blockers":[]})"));
    const auto none = question(Command::Plan, R"({"ready_at":null,"blockers":["b","a"]})");
    CHECK(agrees(none, 1, R"({"ready_at":null,"blockers":["b","a"]})"));
    CHECK_FALSE(agrees(none, 1, R"({"ready_at":null,"blockers":["a","b"]})"));
    CHECK_FALSE(agrees(none, 0, R"({"ready_at":null,"blockers":["b","a"]})"));
}

TEST_CASE("A board has the checks of the edition and no others", "[unit]") {
    const auto board = question(Command::Board, R"([{"device":"D1","checks":{"leak":"due"}}])");
    CHECK(agrees(board, 0, R"([{"device":"D1","checks":{"leak":"due"},"more":1}])"));
    CHECK_FALSE(agrees(board, 0, R"([{"device":"D1","checks":{"leak":"due","zero":"due"}}])"));
    CHECK_FALSE(agrees(board, 0, "[]"));
    CHECK_FALSE(agrees(board, 0, ""));
    CHECK_FALSE(agrees(board, 3, ""));
}

TEST_CASE("A call in error ends with the status expected", "[unit]") {
    auto board = question(Command::Board, "null");
    CHECK(agrees(board, 2, ""));
    CHECK_FALSE(agrees(board, 0, "[]"));
    CHECK_FALSE(agrees(board, 1, ""));
    board.status = 3;
    CHECK(agrees(board, 3, ""));
}

TEST_CASE("Of a month the rest is compared where the answer has it", "[unit]") {
    const auto month = question(Command::Month, R"({"starts":{"emergency":1},"groups":{"a":1}})");
    const std::string starts = R"({"starts":{"emergency":1}})";
    CHECK_FALSE(agrees(month, 0, starts));
    CHECK(agrees(month, 0, starts, MonthScope::Starts));
    CHECK(judge(month, {0, starts, "", false}, MonthScope::Starts).partly);
    CHECK_FALSE(agrees(month, 0, R"({"starts":{"emergency":2}})", MonthScope::Starts));
    CHECK_FALSE(
        agrees(month, 0, R"({"starts":{"emergency":1},"groups":{"a":2}})", MonthScope::Starts));
    CHECK_FALSE(agrees(month, 0, R"({"starts":{"emergency":1},"groups":{"a":1,"b":1}})"));
    CHECK_FALSE(agrees(month, 0, R"({"groups":{"a":1}})", MonthScope::Starts));
}

TEST_CASE("A rulebook is refused with a fault, or sound", "[unit]") {
    const auto refused = question(Command::Rulebook, R"({"refused":true})");
    CHECK(agrees(refused, 1, R"({"faults":[{}],"warnings":[]})"));
    CHECK_FALSE(agrees(refused, 1, R"({"faults":[],"warnings":[]})"));
    CHECK_FALSE(agrees(refused, 0, R"({"faults":[{}],"warnings":[]})"));
    CHECK_FALSE(agrees(refused, 1, ""));
    const auto warned = question(Command::Rulebook, R"({"refused":false,"warned":true})");
    CHECK(agrees(warned, 0, R"({"faults":[],"warnings":[{}]})"));
    CHECK_FALSE(agrees(warned, 0, R"({"faults":[],"warnings":[]})"));
    CHECK_FALSE(agrees(warned, 0, R"({"faults":[{}],"warnings":[{}]})"));
}

TEST_CASE("An answer that does not come in time does not agree", "[unit]") {
    const auto board = question(Command::Board, "[]");
    CHECK_FALSE(judge(board, {137, "[]", "", true}, MonthScope::Whole).differences.empty());
}

TEST_CASE("A case with what the reader does not know is refused", "[unit]") {
    CHECK(readCaseText(R"({"name":"a","ask":[{"command":"board","expect":[]}]})", "").has_value());
    CHECK_FALSE(readCaseText(R"({"name":"a","ask":[{"command":"guess","expect":[]}]})", ""));
    CHECK_FALSE(readCaseText(R"({"name":"a","ask":[{"command":"board"}]})", ""));
    CHECK_FALSE(readCaseText(R"({"name":"a","ask":[{"command":"board","expect":[],"x":1}]})", ""));
    CHECK_FALSE(readCaseText(R"({"name":"a","ask":[],"answer":[]})", ""));
    CHECK_FALSE(readCaseText(R"({"name":"a"})", ""));
    CHECK_FALSE(readCaseText("[", ""));
}
