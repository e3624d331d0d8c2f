// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// How the project's files are written: sizes, heads, and words that must not stand in them.
#include "layering/source_file.h"

#include <catch2/catch.hpp>
#include <regex>

using namespace layering;

namespace {

std::string at(const SourceFile& file, std::size_t line) {
    return file.path + ":" + std::to_string(line);
}

bool isWritten(const SourceFile& file) {
    return file.isCpp() || file.path.ends_with(".sh") || file.path.ends_with(".cmake") ||
           file.path.ends_with("CMakeLists.txt");
}

}  // namespace

TEST_CASE("Files stay under 400 lines and their lines under 100 columns", "[layering]") {
    std::size_t lines = 0;
    for (const SourceFile& file : sourceFiles()) {
        if (!isWritten(file)) {
            continue;
        }
        if (file.lines.size() > 400) {
            FAIL_CHECK(file.path << " has " << file.lines.size() << " lines");
        }
        for (std::size_t place = 0; place < file.lines.size(); ++place) {
            ++lines;
            if (columnsOf(file.lines[place]) > 100) {
                FAIL_CHECK(at(file, place + 1)
                           << " has " << columnsOf(file.lines[place]) << " columns");
            }
        }
    }
    CHECK(lines > 10'000);
}

TEST_CASE("Functions stay under 70 lines", "[layering]") {
    std::size_t functions = 0;
    for (const SourceFile& file : sourceFiles()) {
        if (!file.isCpp()) {
            continue;
        }
        for (const FunctionSpan& function : functionsOf(file)) {
            ++functions;
            if (function.lineCount > 70) {
                FAIL_CHECK(at(file, function.firstLine)
                           << " begins a function of " << function.lineCount << " lines");
            }
        }
    }
    CHECK(functions > 500);
}

TEST_CASE("Every source file names its owners and licence first", "[layering]") {
    static const std::regex owners("SPDX-FileCopyrightText: 2026 The Airmuster developers$");
    static const std::regex licence("SPDX-License-Identifier: GPL-3.0-or-later$");
    for (const SourceFile& file : sourceFiles()) {
        if (!isWritten(file)) {
            continue;
        }
        CAPTURE(file.path);
        const std::size_t first = file.text.rfind("#!", 0) == 0 ? 1 : 0;
        REQUIRE(file.lines.size() > first + 1);
        CHECK(std::regex_search(file.lines[first], owners));
        CHECK(std::regex_search(file.lines[first + 1], licence));
    }
}

TEST_CASE("Nothing is left unfinished or switched off", "[layering]") {
    // Put together from halves, so that this file does not hold them.
    const std::string words = std::string("\\b(TO") + "DO|FIX" + "ME|XX" + "X|HA" + "CK)\\b|not " +
                              "implemented|\\[!may" + "fail\\]|\\[!should" + "fail\\]|\"\\[\\" +
                              ".\\]|^\\s*#\\s*if 0";
    const std::regex banned(words);
    for (const SourceFile& file : sourceFiles()) {
        for (std::size_t place = 0; place < file.lines.size(); ++place) {
            if (std::regex_search(file.lines[place], banned)) {
                FAIL_CHECK(at(file, place + 1) << ": " << file.lines[place]);
            }
        }
    }
}

TEST_CASE("The reading of C++ that these tests rest on", "[layering]") {
    const SourceFile file = sourceFile("a.cpp",
                                       "#include <vector>\n"
                                       "#include \"a/b.h\"\n"
                                       "namespace a {\n"
                                       "struct S {\n"
                                       "    int f() const { return '{'; }  // {\n"
                                       "};\n"
                                       "int g(int x) {\n"
                                       "    if (x) {\n"
                                       "        return 1'000;\n"
                                       "    }\n"
                                       "    return \"}\"[0];\n"
                                       "}\n"
                                       "int table[] = {1, 2};\n"
                                       "}\n");
    const auto functions = functionsOf(file);
    REQUIRE(functions.size() == 2);
    CHECK(functions[0].firstLine == 5);
    CHECK(functions[0].lineCount == 1);
    CHECK(functions[1].firstLine == 7);
    CHECK(functions[1].lineCount == 6);
    const auto includes = includesOf(file);
    REQUIRE(includes.size() == 2);
    CHECK(includes[0].name == "vector");
    CHECK_FALSE(includes[0].quoted);
    CHECK(includes[1].quoted);
    CHECK(codeOnly("a // b\nc \"d\" 'e' R\"(f\")\" g").find_first_of("bdef") == std::string::npos);
    CHECK(columnsOf("Größe") == 5);
}
