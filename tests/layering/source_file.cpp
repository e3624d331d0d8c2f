// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads the project's files and takes C++ apart into code and the rest.
#include "layering/source_file.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>

namespace layering {

namespace {

namespace fs = std::filesystem;

bool isWanted(const fs::path& path) {
    static const std::array<std::string_view, 8> endings{".h",    ".cpp", ".cmake", ".txt",
                                                         ".toml", ".sql", ".sh",    ".md"};
    const std::string text = path.string();
    return std::find(endings.begin(), endings.end(), path.extension().string()) != endings.end() &&
           text.find("/corpus/") == std::string::npos &&
           text.find("tests/conformance/") == std::string::npos;
}

void readInto(const fs::path& top, const fs::path& path, std::vector<SourceFile>& files) {
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    files.push_back(sourceFile(path.lexically_relative(top).generic_string(), text.str()));
}

std::vector<SourceFile> readAll() {
    const fs::path top = AIRMUSTER_SOURCE_DIR;
    std::vector<SourceFile> files;
    for (const auto& entry : fs::directory_iterator(top)) {
        if (entry.is_regular_file() && isWanted(entry.path())) {
            readInto(top, entry.path(), files);
        }
    }
    for (const char* folder : {"src", "tests", "packaging", "data", "docs"}) {
        if (!fs::exists(top / folder)) {
            continue;
        }
        for (const auto& entry : fs::recursive_directory_iterator(top / folder)) {
            if (entry.is_regular_file() && isWanted(entry.path())) {
                readInto(top, entry.path(), files);
            }
        }
    }
    std::sort(files.begin(), files.end(),
              [](const auto& one, const auto& other) { return one.path < other.path; });
    return files;
}

// Where the token that begins at `from` and is no code ends; `from` itself if it is code.
std::size_t endOfOther(std::string_view text, std::size_t from) {
    const auto rest = text.substr(from);
    const auto after = [&](std::string_view mark, std::size_t begin) {
        const auto found = text.find(mark, begin);
        return found == std::string_view::npos ? text.size() : found + mark.size();
    };
    if (rest.substr(0, 2) == "//") {
        return after("\n", from) - (text.find('\n', from) == std::string_view::npos ? 0 : 1);
    }
    if (rest.substr(0, 2) == "/*") {
        return after("*/", from + 2);
    }
    if (rest.substr(0, 2) == "R\"") {
        const auto open = text.find('(', from);
        const auto mark = ")" + std::string(text.substr(from + 2, open - from - 2)) + "\"";
        return after(mark, open);
    }
    const bool separates = rest[0] == '\'' && from > 0 &&
                           std::isalnum(static_cast<unsigned char>(text[from - 1])) != 0;
    if (rest[0] == '"' || (rest[0] == '\'' && !separates)) {
        std::size_t place = from + 1;
        while (place < text.size() && text[place] != rest[0] && text[place] != '\n') {
            place += text[place] == '\\' ? 2 : 1;
        }
        return std::min(place + 1, text.size());
    }
    return from;
}

// What the words before an opening brace make of it.
enum class Brace { Scope, Function, Other };

Brace kindOfBrace(std::string_view before) {
    static const std::regex scope(
        R"(^\s*(inline\s+)?(namespace|extern\b)|\b(class|struct|union)\s+[^()=]*$)");
    static const std::regex function(
        R"(\)\s*(const|noexcept|override|final|&|->[^{;]*|:[^{;]*|\s)*$)");
    const std::string text(before);
    if (std::regex_search(text, scope)) {
        return Brace::Scope;
    }
    return std::regex_search(text, function) ? Brace::Function : Brace::Other;
}

}  // namespace

bool SourceFile::isIn(std::string_view folder) const {
    return path.rfind(folder, 0) == 0;
}

bool SourceFile::isCpp() const {
    return path.ends_with(".h") || path.ends_with(".cpp");
}

SourceFile sourceFile(std::string path, std::string text) {
    SourceFile file{std::move(path), std::move(text), {}};
    std::istringstream lines(file.text);
    for (std::string line; std::getline(lines, line);) {
        file.lines.push_back(line);
    }
    return file;
}

const std::vector<SourceFile>& sourceFiles() {
    static const std::vector<SourceFile> files = readAll();
    return files;
}

std::string codeOnly(std::string_view text) {
    std::string code(text);
    bool lineBegins = true;
    for (std::size_t place = 0; place < text.size();) {
        std::size_t end = endOfOther(text, place);
        if (lineBegins && text[place] == '#') {
            end = std::min(text.find('\n', place), text.size());
        }
        for (std::size_t blank = place; blank < end; ++blank) {
            code[blank] = text[blank] == '\n' ? '\n' : ' ';
        }
        if (end == place) {
            lineBegins = text[place] == '\n' || (lineBegins && text[place] == ' ');
            ++place;
        } else {
            place = end;
        }
    }
    return code;
}

std::vector<Include> includesOf(const SourceFile& file) {
    static const std::regex form(R"(^\s*#\s*include\s*([<"])([^">]+)[">])");
    std::vector<Include> includes;
    for (const std::string& line : file.lines) {
        std::smatch match;
        if (std::regex_search(line, match, form)) {
            includes.push_back({match[2], match[1] == "\""});
        }
    }
    return includes;
}

std::vector<FunctionSpan> functionsOf(const SourceFile& file) {
    const std::string code = codeOnly(file.text);
    std::vector<FunctionSpan> functions;
    std::size_t line = 1;
    std::size_t statement = 0;  // where the words before the next brace begin
    std::size_t depth = 0;      // braces open inside a function
    for (std::size_t place = 0; place < code.size(); ++place) {
        const char letter = code[place];
        line += letter == '\n' ? 1 : 0;
        if (letter == '{') {
            const auto before = std::string_view(code).substr(statement, place - statement);
            if (depth > 0) {
                ++depth;
            } else if (kindOfBrace(before) == Brace::Function) {
                functions.push_back({line, 0});
                depth = 1;
            }
        } else if (letter == '}' && depth > 0 && --depth == 0) {
            functions.back().lineCount = line - functions.back().firstLine + 1;
        }
        if (letter == ';' || letter == '{' || letter == '}') {
            statement = place + 1;
        }
    }
    return functions;
}

std::size_t columnsOf(std::string_view line) {
    return static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char letter) {
        return (static_cast<unsigned char>(letter) & 0xC0) != 0x80;
    }));
}

}  // namespace layering
