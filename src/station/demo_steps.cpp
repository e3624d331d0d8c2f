// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Takes a step line apart.
#include "station/demo_steps.h"

namespace station::demo {

std::string_view Step::word(std::size_t index) const {
    return index < words.size() ? std::string_view(words[index]) : std::string_view();
}

std::string_view Step::option(std::string_view name) const {
    const auto found = options.find(name);
    return found == options.end() ? std::string_view() : std::string_view(found->second);
}

std::string Step::key() const {
    return words.empty() ? verb : verb + " " + words.front();
}

tl::expected<Step, std::string> parseStep(std::string_view line) {
    Step step;
    const auto colon = line.find(" : ");
    if (colon != std::string_view::npos) {
        step.text = line.substr(colon + 3);
        line = line.substr(0, colon);
    }
    while (!line.empty()) {
        const auto blank = line.find(' ');
        const std::string_view token = line.substr(0, blank);
        line = blank == std::string_view::npos ? std::string_view() : line.substr(blank + 1);
        const auto equals = token.find('=');
        if (token.empty() || equals == 0) {
            return tl::unexpected(std::string("two blanks or an option without a name"));
        }
        if (equals != std::string_view::npos) {
            step.options.emplace(token.substr(0, equals), token.substr(equals + 1));
        } else if (step.verb.empty()) {
            step.verb = token;
        } else {
            step.words.emplace_back(token);
        }
    }
    if (step.verb.empty()) {
        return tl::unexpected(std::string("no verb"));
    }
    return step;
}

}  // namespace station::demo
