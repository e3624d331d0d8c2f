// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Canonical JSON against published pairs of input and output.
#include "logbook/json.h"

#include <catch2/catch.hpp>

#include <bit>
#include <cstdint>
#include <string>

using namespace logbook;

namespace {

struct Pair {
    const char* name;
    std::string input, canonical;
};

// The test data that accompanies RFC 8785: github.com/cyberphone/json-canonicalization, folder
// testdata, commit 19d51d7fe467d4706a3ff08adf8a748f29fc21e0 (Apache-2.0).
const Pair pairs[] = {
    {"arrays",
     "[\n"
     "  56,\n"
     "  {\n"
     "    \"d\": true,\n"
     "    \"10\": null,\n"
     "    \"1\": [ ]\n"
     "  }\n"
     "]\n",
     "[56,{\"1\":[],\"10\":null,\"d\":true}]"},
    {"french",
     "{\n"
     "  \"peach\": \"This sorting order\",\n"
     "  \"péché\": \"is wrong according to French\",\n"
     "  \"pêche\": \"but canonicalization MUST\",\n"
     "  \"sin\":   \"ignore locale\"\n"
     "}\n",
     "{\"peach\":\"This sorting order\",\"péché\":\"is wrong according to French\",\"pêche"
     "\":\"but canonicalization MUST\",\"sin\":\"ignore locale\"}"},
    {"structures",
     "{\n"
     "  \"1\": {\"f\": {\"f\": \"hi\",\"F\": 5} ,\"\\n\": 56.0},\n"
     "  \"10\": { },\n"
     "  \"\": \"empty\",\n"
     "  \"a\": { },\n"
     "  \"111\": [ {\"e\": \"yes\",\"E\": \"no\" } ],\n"
     "  \"A\": { }\n"
     "}",
     "{\"\":\"empty\",\"1\":{\"\\n\":56,\"f\":{\"F\":5,\"f\":\"hi\"}},\"10\":{},\"111\":[{"
     "\"E\":\"no\",\"e\":\"yes\"}],\"A\":{},\"a\":{}}"},
    {"unicode",
     "{\n"
     "  \"Unnormalized Unicode\":\"A\\u030a\"\n"
     "}\n",
     "{\"Unnormalized Unicode\":\"A\314\212\"}"},
    {"values",
     "{\n"
     "  \"numbers\": [333333333.33333329, 1E30, 4.50, 2e-3, 0.00000000000000000000000000"
     "1],\n"
     "  \"string\": \"\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\\"\\/\",\n"
     "  \"literals\": [null, true, false]\n"
     "}",
     "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27"
     "],\"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}"},
    {"weird",
     "{\n"
     "  \"\\u20ac\": \"Euro Sign\",\n"
     "  \"\\r\": \"Carriage Return\",\n"
     "  \"\\u000a\": \"Newline\",\n"
     "  \"1\": \"One\",\n"
     "  \"\\u0080\": \"Control\\u007f\",\n"
     "  \"\\ud83d\\ude02\": \"Smiley\",\n"
     "  \"\\u00f6\": \"Latin Small Letter O With Diaeresis\",\n"
     "  \"\\ufb33\": \"Hebrew Letter Dalet With Dagesh\",\n"
     "  \"</script>\": \"Browser Challenge\"\n"
     "}\n",
     "{\"\\n\":\"Newline\",\"\\r\":\"Carriage Return\",\"1\":\"One\",\"</script>\":\"Brows"
     "er Challenge\",\"\302\200\":\"Control\177\",\"ö\":\"Latin Small Letter O With Diaere"
     "sis\",\"€\":\"Euro Sign\",\"😂\":\"Smiley\",\"\357\254\263\":\"Hebrew Letter Dalet Wi"
     "th Dagesh\"}"},
};

struct Number {
    std::uint64_t bits;
    const char* text;
};

// RFC 8785, appendix B, and the same repository's number samples.
const Number numbers[] = {
    {0x4340000000000001, "9007199254740994"},
    {0x4340000000000002, "9007199254740996"},
    {0x444b1ae4d6e2ef50, "1e+21"},
    {0x3eb0c6f7a0b5ed8d, "0.000001"},
    {0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7"},
    {0x8000000000000000, "0"},
    {0x0000000000000000, "0"},
    {0x0000000000000001, "5e-324"},
    {0x8000000000000001, "-5e-324"},
    {0x7fefffffffffffff, "1.7976931348623157e+308"},
    {0xffefffffffffffff, "-1.7976931348623157e+308"},
    {0x4340000000000000, "9007199254740992"},
    {0xc340000000000000, "-9007199254740992"},
    {0x4430000000000000, "295147905179352830000"},
    {0x44b52d02c7e14af5, "9.999999999999997e+22"},
    {0x44b52d02c7e14af6, "1e+23"},
    {0x44b52d02c7e14af7, "1.0000000000000001e+23"},
    {0x444b1ae4d6e2ef4e, "999999999999999700000"},
    {0x444b1ae4d6e2ef4f, "999999999999999900000"},
    {0x41b3de4355555553, "333333333.3333332"},
    {0x41b3de4355555554, "333333333.33333325"},
    {0x41b3de4355555555, "333333333.3333333"},
    {0x41b3de4355555556, "333333333.3333334"},
    {0x41b3de4355555557, "333333333.33333343"},
    {0xbecbf647612f3696, "-0.0000033333333333333333"},
    {0x43143ff3c1cb0959, "1424953923781206.2"},
};

}  // namespace

TEST_CASE("The pairs of RFC 8785 canonicalise as published", "[reference]") {
    for (const Pair& pair : pairs) {
        INFO(pair.name);
        const auto value = json::parse(pair.input);
        REQUIRE(value);
        CHECK(json::canonical(*value) == pair.canonical);
        const auto again = json::parse(pair.canonical);
        REQUIRE(again);
        CHECK(json::canonical(*again) == pair.canonical);
    }
}

TEST_CASE("Numbers are printed as RFC 8785 prints them", "[reference]") {
    for (const Number& number : numbers) {
        INFO(number.text);
        CHECK(json::canonical(json::Value(std::bit_cast<double>(number.bits))) == number.text);
        const auto value = json::parse(number.text);
        REQUIRE(value);
        CHECK(*value->number() == std::bit_cast<double>(number.bits));
    }
}

// RFC 8785, section 3.2.2.2.
TEST_CASE("Control characters are escaped the short way", "[reference]") {
    std::string all;
    for (char character = 1; character < 0x20; ++character) {
        all += character;
    }
    CHECK(json::canonical(json::Value(all)) ==
          "\"\\u0001\\u0002\\u0003\\u0004\\u0005\\u0006\\u0007\\b\\t\\n\\u000b\\f\\r\\u000e"
          "\\u000f\\u0010\\u0011\\u0012\\u0013\\u0014\\u0015\\u0016\\u0017\\u0018\\u0019"
          "\\u001a\\u001b\\u001c\\u001d\\u001e\\u001f\"");
    CHECK(json::canonical(json::Value("\x7f/\"\\")) == "\"\x7f/\\\"\\\\\"");
}

// RFC 8785, section 3.2.3: by UTF-16 code units, so that U+1F600 (D83D DE00) precedes U+FB33.
TEST_CASE("Members sort by UTF-16 code units", "[reference]") {
    const json::Object object{{"\uffff", 1}, {"\U0001f600", 2}, {"\ue000", 3}, {"\ud7ff", 4},
                              {"a", 5},      {"", 6},            {"aa", 7},     {"\U0010ffff", 8}};
    CHECK(json::canonical(json::Value(object)) ==
          "{\"\":6,\"a\":5,\"aa\":7,\"\ud7ff\":4,\"\U0001f600\":2,\"\U0010ffff\":8,\"\ue000\":3,"
          "\"\uffff\":1}");
}
