// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Descriptions to a parser of the CLI11 library, and what that finds to a call; the only file that
// knows the library.
#include "cli/parser.h"

#include "logbook/text.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

namespace cli {

namespace {

using station::Problem;
using station::Result;
using OptionValues = std::map<std::string_view, std::vector<std::string>>;

// How many letters have to be put in, taken out or replaced.
std::size_t distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = std::exchange(row[0], i + 1);
        for (std::size_t j = 0; j < b.size(); ++j) {
            const auto replaced = diagonal + (a[i] == b[j] ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({row[j] + 1, row[j + 1] + 1, replaced});
        }
    }
    return row.back();
}

class Reading {
public:
    Reading(const Description& description, const words::Words& words)
        : m_description(description), m_words(words) {}

    Result<Call> run(const std::vector<std::string>& arguments) {
        auto found = readWords(arguments);
        if (!found) {
            return tl::unexpected(std::move(found.error()));
        }
        if (m_found.contains(std::string(shared::help.name))) {
            return Call(std::move(m_found));
        }
        for (const auto& refusal : {placeArguments(), checkOptions(), checkLetters()}) {
            if (!refusal) {
                return tl::unexpected(refusal.error());
            }
        }
        return Call(std::move(m_found));
    }

private:
    [[nodiscard]] Problem problem(std::string_view key, words::Gaps gaps) const {
        gaps.emplace("command", m_description.name);
        return station::problemOf(m_words, key, gaps);
    }

    Result<void> readWords(const std::vector<std::string>& arguments) {
        CLI::App app;
        app.set_help_flag();
        app.allow_extras();
        OptionValues values;
        app.add_option("arguments", m_arguments);
        for (const auto& option : m_description.options) {
            add(app, option, values[option.name]);
        }
        add(app, shared::help, values[shared::help.name]);
        try {
            app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
        } catch (const CLI::ParseError& error) {
            return tl::unexpected(wrongValue(error.what()));
        }
        auto extras = app.remaining();
        // What only says that no option follows.
        if (const auto mark = std::ranges::find(extras, "--"); mark != extras.end()) {
            extras.erase(mark);
        }
        if (!extras.empty()) {
            return tl::unexpected(unknownOption(extras.front()));
        }
        for (auto& [name, given] : values) {
            if (!given.empty()) {
                m_found.emplace(name, std::move(given));
            }
        }
        return {};
    }

    static void add(CLI::App& app, const Option& option, std::vector<std::string>& values) {
        const std::string name(option.name);
        if (option.value.empty()) {
            app.add_flag_function(name, [&values](std::int64_t) { values = {""}; })
                ->disable_flag_override();
        } else {
            app.add_option(name, values)->allow_extra_args(false);
        }
    }

    // The library's words begin with the name of the option; of a switch, without its hyphens.
    Problem wrongValue(std::string_view what) const {
        for (const auto& option : m_description.options) {
            const std::string name(option.name);
            if (what.starts_with(name + ":")) {
                return problem("call.value_missing",
                               {{"option", name}, {"value", std::string(option.value)}});
            }
            if (option.value.empty() && what.starts_with(name.substr(2) + " ")) {
                return problem("call.value_unwanted", {{"option", name}});
            }
        }
        return problem("call.other", {{"detail", std::string(what)}});
    }

    Problem unknownOption(const std::string& word) const {
        std::vector<std::string_view> names{shared::help.name};
        for (const auto& option : m_description.options) {
            names.push_back(option.name);
        }
        const auto like = nearest(word, names);
        if (like.empty()) {
            return problem("call.unknown_option", {{"option", word}});
        }
        return problem("call.unknown_option_like", {{"option", word}, {"nearest", like}});
    }

    Result<void> placeArguments() {
        std::size_t next = 0;
        for (const auto& argument : m_description.arguments) {
            if (next == m_arguments.size()) {
                if (argument.optional) {
                    break;
                }
                return tl::unexpected(problem("call.argument_missing",
                                              {{"argument", std::string(argument.name)}}));
            }
            const auto end = argument.repeats ? m_arguments.size() : next + 1;
            m_found.emplace(argument.name,
                            std::vector<std::string>(
                                m_arguments.begin() + static_cast<std::ptrdiff_t>(next),
                                m_arguments.begin() + static_cast<std::ptrdiff_t>(end)));
            if (isPath(argument.name) && isEmptyAmong(argument.name)) {
                return tl::unexpected(problem("call.argument_missing",
                                              {{"argument", std::string(argument.name)}}));
            }
            next = end;
        }
        if (next < m_arguments.size()) {
            return tl::unexpected(problem("call.argument_unwanted",
                                          {{"argument", m_arguments[next]}}));
        }
        return {};
    }

    Result<void> checkOptions() const {
        for (const auto& option : m_description.options) {
            const auto found = m_found.find(option.name);
            const words::Gaps gaps{{"option", std::string(option.name)},
                                   {"value", std::string(option.value)}};
            if (found == m_found.end()) {
                if (option.required) {
                    return tl::unexpected(problem("call.option_missing", gaps));
                }
            } else if (found->second.size() > 1 && !option.repeats) {
                return tl::unexpected(problem("call.option_twice", gaps));
            } else if ((isPath(option.value) || option.required) && isEmptyAmong(option.name)) {
                return tl::unexpected(problem("call.value_missing", gaps));
            }
        }
        return {};
    }

    // Nothing has an empty name; what is said of one would have to call it something.
    bool isEmptyAmong(std::string_view name) const {
        const auto& given = m_found.find(name)->second;
        return std::ranges::any_of(given, &std::string::empty);
    }

    // What is no UTF-8 could be kept, and never be read again.
    Result<void> checkLetters() const {
        for (const auto& argument : m_description.arguments) {
            if (!isPath(argument.name) && !areUtf8(argument.name)) {
                return tl::unexpected(problem("safeguard.letters",
                                              {{"word", std::string(argument.name)}}));
            }
        }
        for (const auto& option : m_description.options) {
            if (!isPath(option.value) && !areUtf8(option.name)) {
                return tl::unexpected(problem("safeguard.letters",
                                              {{"word", std::string(option.name)}}));
            }
        }
        return {};
    }

    bool areUtf8(std::string_view name) const {
        const auto found = m_found.find(name);
        return found == m_found.end() || std::ranges::all_of(found->second, logbook::isUtf8);
    }

    const Description& m_description;
    const words::Words& m_words;
    std::vector<std::string> m_arguments;
    Call::Values m_found;
};

}  // namespace

Result<Call> parse(const Description& description, const std::vector<std::string>& arguments,
                   const words::Words& words) {
    return Reading(description, words).run(arguments);
}

std::string nearest(std::string_view word, const std::vector<std::string_view>& candidates) {
    std::string_view best;
    // More than a third of the letters wrong is another word.
    std::size_t least = std::max<std::size_t>(word.size() / 3, 1) + 1;
    for (const auto candidate : candidates) {
        const auto apart = distance(word, candidate);
        if (apart < least) {
            least = apart;
            best = candidate;
        }
    }
    return std::string(best);
}

}  // namespace cli
