// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The project's own files as text, for tests about how they are written. Knows no rule itself.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace layering {

struct SourceFile {
    std::string path;  // from the top of the project: "src/rules/fold.cpp"
    std::string text;
    std::vector<std::string> lines;

    [[nodiscard]] bool isIn(std::string_view folder) const;  // "src/rules/"
    [[nodiscard]] bool isCpp() const;                        // .h or .cpp
};

// Every text file of src, tests, packaging, data and the top folder but the conformance cases and
// fuzz corpora, sorted by path. Read once.
[[nodiscard]] const std::vector<SourceFile>& sourceFiles();

[[nodiscard]] SourceFile sourceFile(std::string path, std::string text);

// The text of the same length in which comments, literals and preprocessor lines are blanks.
[[nodiscard]] std::string codeOnly(std::string_view text);

struct Include {
    std::string name;  // "logbook/json.h", "vector"
    bool quoted = false;
};
[[nodiscard]] std::vector<Include> includesOf(const SourceFile& file);

// A function's body by its braces; best effort: it knows tokens, not the language.
struct FunctionSpan {
    std::size_t firstLine = 0;  // from 1, the line of its opening brace
    std::size_t lineCount = 0;
};
[[nodiscard]] std::vector<FunctionSpan> functionsOf(const SourceFile& file);

// Columns a line takes: code points of its UTF-8.
[[nodiscard]] std::size_t columnsOf(std::string_view line);

}  // namespace layering
