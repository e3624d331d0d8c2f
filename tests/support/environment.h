// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Variables of the environment as a test wants them.
#pragma once

#include <cstdlib>
#include <initializer_list>
#include <map>
#include <optional>
#include <string>

namespace support {

// Variables of the environment that are unset, and are afterwards what they were.
class Environment {
public:
    Environment(std::initializer_list<std::string> names) {
        for (const auto& name : names) {
            const auto* value = std::getenv(name.c_str());
            m_before.emplace(name, value != nullptr ? std::optional<std::string>(value)
                                                    : std::nullopt);
            ::unsetenv(name.c_str());
        }
    }
    Environment(const Environment&) = delete;
    Environment& operator=(const Environment&) = delete;
    ~Environment() {
        for (const auto& [name, value] : m_before) {
            if (value) {
                set(name, *value);
            } else {
                ::unsetenv(name.c_str());
            }
        }
    }
    void set(const std::string& name, const std::string& value) const {
        ::setenv(name.c_str(), value.c_str(), 1);
    }

private:
    std::map<std::string, std::optional<std::string>> m_before;
};

}  // namespace support
