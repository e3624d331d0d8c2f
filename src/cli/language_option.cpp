// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Takes the language out of a call; see language_option.h.
#include "cli/language_option.h"

#include "words/languages.h"

#include <optional>
#include <string_view>

namespace cli {

namespace {

constexpr std::string_view option = "--language";
constexpr std::string_view withValue = "--language=";

using station::Problem;

Problem problemOfCode(const words::Words& words, const std::string& code) {
    return station::problemOf(
        words, "call.bad_value",
        {{"option", std::string(option)},
         {"text", code},
         {"wanted", words.anyOf(words::builtInLanguages())}});
}

}  // namespace

station::Result<SpokenCall> takeLanguage(const std::vector<std::string>& arguments,
                                         const words::Words& otherwise) {
    SpokenCall call{{}, &otherwise};
    std::optional<std::string> code;
    auto next = arguments.begin();
    for (; next != arguments.end() && *next != "--"; ++next) {
        const bool apart = *next == option;
        if (!apart && !next->starts_with(withValue)) {
            call.arguments.push_back(*next);
            continue;
        }
        if (code) {
            return tl::unexpected(station::problemOf(
                otherwise, "call.option_twice",
                {{"option", std::string(option)}, {"command", "help"}}));
        }
        if (apart && next + 1 == arguments.end()) {
            return tl::unexpected(problemOfCode(otherwise, ""));
        }
        code = apart ? *++next : next->substr(withValue.size());
    }
    call.arguments.insert(call.arguments.end(), next, arguments.end());
    if (code) {
        call.words = words::Words::builtIn(*code);
        if (call.words == nullptr) {
            return tl::unexpected(problemOfCode(otherwise, *code));
        }
    }
    return call;
}

}  // namespace cli
