// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of one call, read by the description of its command. Knows no command.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cli {

class Call {
public:
    // By the name of the argument or option; a switch that was given has one empty value.
    using Values = std::map<std::string, std::vector<std::string>, std::less<>>;
    explicit Call(Values values) : m_values(std::move(values)) {}

    [[nodiscard]] bool has(std::string_view name) const { return m_values.contains(name); }

    // Nothing if it was not given.
    [[nodiscard]] std::optional<std::string> value(std::string_view name) const {
        const auto found = m_values.find(name);
        return found == m_values.end() ? std::nullopt
                                       : std::optional<std::string>(found->second.front());
    }

    // Of an argument or option that must be given; the parser has seen to that.
    [[nodiscard]] const std::string& wanted(std::string_view name) const {
        return m_values.find(name)->second.front();
    }

    [[nodiscard]] std::vector<std::string> values(std::string_view name) const {
        const auto found = m_values.find(name);
        return found == m_values.end() ? std::vector<std::string>{} : found->second;
    }

private:
    Values m_values;
};

}  // namespace cli
