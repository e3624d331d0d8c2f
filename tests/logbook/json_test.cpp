// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which texts are JSON as records may hold it.
#include "logbook/json.h"

#include <catch2/catch.hpp>

#include <string>

using namespace logbook;
using Code = json::ParseError::Code;

namespace {

void checkRefused(std::string_view text, Code code) {
    INFO(text);
    const auto value = json::parse(text);
    REQUIRE_FALSE(value);
    CHECK(static_cast<int>(value.error().code) == static_cast<int>(code));
    CHECK(value.error().offset <= text.size());
}

std::string reprinted(std::string_view text) {
    const auto value = json::parse(text);
    return value ? json::canonical(*value) : "refused: " + value.error().detail;
}

std::string nested(int depth) {
    return std::string(static_cast<std::size_t>(depth), '[') +
           std::string(static_cast<std::size_t>(depth), ']');
}

}  // namespace

TEST_CASE("Values of every type are read", "[unit]") {
    const auto value = json::parse(R"({"n":null,"t":true,"f":false,"d":-1.5,"s":"x","a":[1,[]]})");
    REQUIRE(value);
    CHECK(value->find("n")->isNull());
    CHECK(*value->find("t")->boolean());
    CHECK_FALSE(*value->find("f")->boolean());
    CHECK(*value->find("d")->number() == -1.5);
    CHECK(*value->find("s")->string() == "x");
    REQUIRE(value->find("a")->array());
    CHECK(value->find("a")->array()->size() == 2);
    CHECK(value->find("none") == nullptr);
    CHECK(value->find("a")->find("n") == nullptr);
    CHECK(value->find("s")->number() == nullptr);
}

TEST_CASE("Members keep the order they came in", "[unit]") {
    const auto value = json::parse(R"({"b":1,"a":2})");
    REQUIRE(value);
    CHECK(value->object()->front().first == "b");
}

TEST_CASE("What is no JSON is refused", "[unit]") {
    for (const char* text :
         {"", " ", "{", "}", "[1,]", "{\"a\":1,}", "{\"a\" 1}", "{a:1}", "{1:1}", "'a'", "tru",
          "nul", "True", "NaN", "Infinity", "-Infinity", "+1", "01", "-01", "1.", ".5", "1e", "-",
          "0x1", "1 2", "{} {}", "// remark\n1", "/**/1", "\"a", "\"\\x\"", "\"\\u12\"",
          "\"a\nb\"", "\"a\tb\"", "[1 2]", "\xef\xbb\xbf{}"}) {
        checkRefused(text, Code::Syntax);
    }
    using namespace std::string_view_literals;
    checkRefused("1\0"sv, Code::Syntax);
    checkRefused("\"a\0b\""sv, Code::Syntax);
    checkRefused("{}\0{"sv, Code::Syntax);
}

TEST_CASE("White space around a value is allowed", "[unit]") {
    CHECK(reprinted(" \t\r\n{ \"a\" : [ 1 , 2 ] }\r\n") == R"({"a":[1,2]})");
}

TEST_CASE("Texts that are no Unicode are refused", "[unit]") {
    for (const char* text :
         {"\"\\ud800\"", "\"\\udc00\"", "\"\\udc00\\ud800\"", "\"\\ud800\\ud800\"", "\"\\ud800x\"",
          "{\"\\udfff\":1}", "\"\xed\xa0\x80\"", "\"\xc0\x80\"", "\"\xff\"", "\"\xe2\x82\"",
          "\"\xf4\x90\x80\x80\"", "{\"\x80\":1}"}) {
        checkRefused(text, Code::Encoding);
    }
    CHECK(reprinted("\"\\ud83d\\ude02\"") == "\"😂\"");
}

TEST_CASE("U+0000 is refused in texts and names", "[unit]") {
    checkRefused(R"("\u0000")", Code::NullCharacter);
    checkRefused(R"({"a\u0000":1})", Code::NullCharacter);
}

TEST_CASE("A name comes once in an object", "[unit]") {
    checkRefused(R"({"a":1,"a":1})", Code::DuplicateName);
    checkRefused(R"({"a":1,"b":{"c":1,"\u0063":2}})", Code::DuplicateName);
    checkRefused(R"([{"":1,"":2}])", Code::DuplicateName);
    CHECK(json::parse(R"({"a":1,"b":2,"a":3})").error().detail == "a");
    CHECK(json::parse(R"([{"a":1},{"a":{"a":1}}])"));
}

TEST_CASE("A name comes once in an object of many members", "[unit]") {
    std::string members;
    for (int number = 0; number < 40; ++number) {
        members += "\"k" + std::to_string(number) + "\":1,";
    }
    CHECK(json::parse("{" + members + "\"last\":1}"));
    for (const char* twin : {"k0", "k15", "k16", "k17", "k39"}) {
        checkRefused("{" + members + "\"" + twin + "\":1}", Code::DuplicateName);
    }
}

TEST_CASE("Numbers that a double cannot keep are refused", "[unit]") {
    for (const char* text :
         {"1e400", "-1e400", "1e-400", "2e-324", "1.7976931348623159e308", "9007199254740993",
          "-9007199254740993", "123456789012345678901", "[1,1e999]"}) {
        checkRefused(text, Code::Number);
    }
}

TEST_CASE("Numbers that a double keeps are taken", "[unit]") {
    CHECK(reprinted("9007199254740992") == "9007199254740992");
    CHECK(reprinted("9007199254740994") == "9007199254740994");
    CHECK(reprinted("1180591620717411303424") == "1.1805916207174113e+21");
    CHECK(reprinted("333333333.33333329") == "333333333.3333333");
    CHECK(reprinted("1.7976931348623157e308") == "1.7976931348623157e+308");
    CHECK(reprinted("4.9e-324") == "5e-324");
    CHECK(reprinted("-0") == "0");
    CHECK(reprinted("-0.0e-5") == "0");
    CHECK(reprinted("1.0") == "1");
}

TEST_CASE("What is printed as a whole number is read again", "[unit]") {
    const std::string printed = reprinted("1.2345678901234568e20");
    CHECK(printed == "123456789012345680000");
    CHECK(reprinted(printed) == printed);
    checkRefused("123456789012345680001", Code::Number);
}

TEST_CASE("Nesting has a limit", "[unit]") {
    CHECK(json::parse(nested(64)));
    checkRefused(nested(65), Code::Depth);
    checkRefused(std::string(1000000, '['), Code::Depth);
    checkRefused(R"({"a":)" + nested(64) + "}", Code::Depth);
}

TEST_CASE("The writing for people keeps the order and indents", "[unit]") {
    const auto value = json::parse(R"({"b":[1,{"c":"é"}],"a":{},"d":[]})");
    REQUIRE(value);
    CHECK(json::pretty(*value) == "{\n"
                                  "  \"b\": [\n"
                                  "    1,\n"
                                  "    {\n"
                                  "      \"c\": \"é\"\n"
                                  "    }\n"
                                  "  ],\n"
                                  "  \"a\": {},\n"
                                  "  \"d\": []\n"
                                  "}");
}
