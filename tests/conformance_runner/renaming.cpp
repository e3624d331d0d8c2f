// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Renames cases: goes over everything once to collect the names and once more to replace them.
#include "conformance_runner/renaming.h"

#include <algorithm>
#include <sstream>

namespace conformance {

namespace {

namespace json = logbook::json;

tl::expected<Records, std::string> readLog(const std::filesystem::path& file) {
    const auto text = readText(file);
    if (!text) {
        return tl::make_unexpected(text.error());
    }
    Records records;
    std::istringstream lines(*text);
    for (std::string line; std::getline(lines, line);) {
        auto record = json::parse(line);
        if (!record) {
            return tl::make_unexpected(file.string() + " holds a line that is no JSON");
        }
        records.push_back(std::move(*record));
    }
    return records;
}

Records renamedRecords(const Records& records, Names& names) {
    Records result;
    result.reserve(records.size());
    for (const Value& record : records) {
        result.push_back(renamedRecord(record, names));
    }
    return result;
}

Question renamedQuestion(const Question& question, Names& names) {
    Question result = question;
    result.device = names(NameKind::Device, question.device);
    result.group = names(NameKind::Group, question.group);
    result.expected = renamedAnswer(question.expected, names);
    return result;
}

Case renamedCase(const Case& given, Names& names) {
    Case result = given;
    if (given.log) {
        result.log = renamedRecords(*given.log, names);
    }
    for (Records& records : result.refused) {
        records = renamedRecords(records, names);
    }
    for (Question& question : result.questions) {
        if (question.command != Command::Rulebook) {
            question = renamedQuestion(question, names);
        }
    }
    return result;
}

Value renamedMember(const std::string& name, const Value& value, Names& names) {
    if (const std::string* text = value.string()) {
        if (name == "device") {
            return names(NameKind::Device, *text);
        }
        if (name == "group") {
            return names(NameKind::Group, *text);
        }
        if (name == "record") {
            return renamedRecordName(*text, names);
        }
        if (name == "task") {
            return renamedPhrase(*text, names);
        }
    }
    if (const json::Object* object = value.object();
        object != nullptr && (name == "checks" || name == "groups")) {
        json::Object result;
        for (const auto& [key, inner] : *object) {
            const auto kind = name == "checks" ? NameKind::Check : NameKind::Group;
            result.emplace_back(names(kind, key), inner);
        }
        return result;
    }
    return renamedAnswer(value, names);
}

// Lists of phrases: findings of a start, reasons, blockers, what runs out. They sort by text, and
// a reserved word among the names may sort elsewhere then.
json::Array renamedPhrases(const json::Array& phrases, Names& names) {
    std::vector<std::string> texts;
    for (const Value& phrase : phrases) {
        texts.push_back(renamedPhrase(*phrase.string(), names));
    }
    std::sort(texts.begin(), texts.end());
    return {texts.begin(), texts.end()};
}

}  // namespace

std::string renamedRecordName(const std::string& name, Names& names) {
    const auto slash = name.find('/');
    return slash == std::string::npos
               ? name
               : names(NameKind::Station, name.substr(0, slash)) + name.substr(slash);
}

Value renamedAnswer(const Value& answer, Names& names) {
    if (const json::Array* list = answer.array()) {
        if (std::all_of(list->begin(), list->end(),
                        [](const Value& value) { return value.string() != nullptr; })) {
            return renamedPhrases(*list, names);
        }
        json::Array result;
        for (const Value& value : *list) {
            result.push_back(renamedAnswer(value, names));
        }
        return result;
    }
    const json::Object* object = answer.object();
    if (object == nullptr) {
        return answer;
    }
    const Value* finding = answer.find("finding");
    json::Object result;
    for (const auto& [name, value] : *object) {
        const bool isSubject = name == "subject" && value.string() != nullptr &&
                               finding != nullptr && finding->string() != nullptr;
        const auto kind = isSubject ? kindAfter(*finding->string()) : std::nullopt;
        result.emplace_back(
            name, kind ? Value(names(*kind, *value.string())) : renamedMember(name, value, names));
    }
    return result;
}

tl::expected<Case, std::string> renamed(const Case& given, std::uint64_t seed) {
    Case whole = given;
    if (given.logFile) {
        auto log = readLog(*given.logFile);
        if (!log) {
            return tl::make_unexpected(log.error());
        }
        whole.log = std::move(*log);
        whole.logFile.reset();
    }
    Names names;
    static_cast<void>(renamedCase(whole, names));
    names.settle(seed);
    return renamedCase(whole, names);
}

}  // namespace conformance
