// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads case files. What it does not know it refuses: a question passed over would look answered.
#include "conformance_runner/case_file.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <sstream>

namespace conformance {

namespace {

namespace json = logbook::json;
using Fault = std::string;

constexpr std::array<std::string_view, 4> commandNames{"board", "plan", "month", "rulebook"};

template <std::size_t Count>
std::optional<Fault> unknownField(const json::Object& object,
                                  const std::array<std::string_view, Count>& known) {
    for (const auto& [name, value] : object) {
        if (std::find(known.begin(), known.end(), name) == known.end()) {
            return "unknown field " + name;
        }
    }
    return std::nullopt;
}

std::string textOf(const Value& object, std::string_view name) {
    const Value* member = object.find(name);
    const std::string* text = member == nullptr ? nullptr : member->string();
    return text == nullptr ? std::string() : *text;
}

tl::expected<Question, Fault> readQuestion(const Value& value) {
    static constexpr std::array<std::string_view, 9> known{
        "command", "device", "month", "at", "known_at", "group", "text", "expect", "exit"};
    if (value.object() == nullptr) {
        return tl::make_unexpected(Fault("a question is no object"));
    }
    if (const auto fault = unknownField(*value.object(), known)) {
        return tl::make_unexpected(*fault + " of a question");
    }
    const std::string word = textOf(value, "command");
    const auto* const command = std::find(commandNames.begin(), commandNames.end(), word);
    if (command == commandNames.end()) {
        return tl::make_unexpected("unknown question '" + word + "'");
    }
    const Value* expected = value.find("expect");
    if (expected == nullptr) {
        return tl::make_unexpected(Fault("a question without 'expect'"));
    }
    Question question;
    question.command = static_cast<Command>(command - commandNames.begin());
    question.device = textOf(value, "device");
    question.month = textOf(value, "month");
    question.at = textOf(value, "at");
    question.knownAt = textOf(value, "known_at");
    question.group = textOf(value, "group");
    question.text = textOf(value, "text");
    question.expected = *expected;
    const Value* status = value.find("exit");
    if (status != nullptr && status->number() != nullptr) {
        question.status = static_cast<int>(*status->number());
    }
    return question;
}

std::optional<Fault> readRefused(const Value& value, std::vector<Records>& refused) {
    if (value.array() == nullptr) {
        return "'refused' is no list";
    }
    for (const Value& records : *value.array()) {
        if (records.array() == nullptr) {
            return "'refused' holds something else than lists";
        }
        refused.push_back(*records.array());
    }
    return std::nullopt;
}

std::optional<Fault> readQuestions(const Value* asked, std::vector<Question>& questions) {
    if (asked == nullptr || asked->array() == nullptr) {
        return "no list 'ask'";
    }
    for (const Value& value : *asked->array()) {
        auto question = readQuestion(value);
        if (!question) {
            return question.error();
        }
        questions.push_back(std::move(*question));
    }
    return std::nullopt;
}

}  // namespace

std::string_view commandName(Command command) {
    return commandNames.at(static_cast<std::size_t>(command));
}

tl::expected<std::string, std::string> readText(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    if (!stream) {
        return tl::make_unexpected("cannot read " + file.string());
    }
    return text.str();
}

tl::expected<Case, std::string> readCaseText(std::string_view text,
                                             const std::filesystem::path& folder) {
    static constexpr std::array<std::string_view, 6> known{"name",     "clause", "log",
                                                           "log_file", "ask",    "refused"};
    const auto value = json::parse(text);
    if (!value || value->object() == nullptr) {
        return tl::make_unexpected(Fault("no JSON object"));
    }
    if (const auto fault = unknownField(*value->object(), known)) {
        return tl::make_unexpected(*fault);
    }
    Case result;
    result.name = textOf(*value, "name");
    result.clause = textOf(*value, "clause");
    if (const Value* log = value->find("log")) {
        if (log->array() == nullptr) {
            return tl::make_unexpected(Fault("'log' is no list"));
        }
        result.log = *log->array();
    }
    if (const std::string name = textOf(*value, "log_file"); !name.empty()) {
        result.logFile = folder / name;
    }
    if (const Value* refused = value->find("refused")) {
        if (const auto fault = readRefused(*refused, result.refused)) {
            return tl::make_unexpected(*fault);
        }
    }
    if (const auto fault = readQuestions(value->find("ask"), result.questions)) {
        return tl::make_unexpected(*fault);
    }
    return result;
}

tl::expected<Case, std::string> readCase(const std::filesystem::path& file) {
    return readText(file)
        .and_then([&](const std::string& text) { return readCaseText(text, file.parent_path()); })
        .map_error([&](const std::string& fault) { return file.string() + ": " + fault; });
}

tl::expected<std::vector<Case>, std::string> readCases(const std::filesystem::path& place,
                                                       std::string_view part) {
    std::error_code trouble;
    std::vector<std::filesystem::path> files;
    if (std::filesystem::is_regular_file(place, trouble)) {
        files.push_back(place);
    } else {
        for (const auto& entry : std::filesystem::directory_iterator(place, trouble)) {
            const auto& file = entry.path();
            if (file.extension() == ".json" &&
                file.filename().string().find(part) != std::string::npos) {
                files.push_back(file);
            }
        }
        if (trouble) {
            return tl::make_unexpected("cannot read " + place.string() + ": " + trouble.message());
        }
    }
    std::sort(files.begin(), files.end());
    std::vector<Case> cases;
    for (const auto& file : files) {
        auto read = readCase(file);
        if (!read) {
            return tl::make_unexpected(read.error());
        }
        cases.push_back(std::move(*read));
    }
    return cases;
}

}  // namespace conformance
