// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Conditions and events of a rulebook's text, with every name in them checked against those that
// the text gives. Knows nothing of what they are asked for.
#pragma once

#include "rules/condition.h"
#include "rules/toml_field.h"

#include <functional>
#include <optional>
#include <set>
#include <string>

namespace rules {

// The keys that a text gives, well formed or not.
struct NamesGiven {
    using Keys = std::set<std::string, std::less<>>;
    Keys groups, positions, checks, services;
};

[[nodiscard]] NamesGiven namesGivenBy(const toml::table& root);

// What every part of the reading needs.
struct Reading {
    NamesGiven names;
    RemarkList faults;
};

// The well-formed entries. WrongType if it is no table; TooMany; BadPath, UnknownPosition,
// UnknownGroup, WrongType of an entry.
[[nodiscard]] std::optional<Condition> readCondition(const Field& field, Reading& reading);

// BadEvent, UnknownPosition, UnknownService.
[[nodiscard]] std::optional<Event> readEvent(const Field& field, Reading& reading);

// Those elements that are known. UnknownPosition, UnknownCheck.
[[nodiscard]] std::optional<std::vector<std::string>> readPositions(const Field& field,
                                                                    Reading& reading);
[[nodiscard]] std::optional<std::vector<std::string>> readChecks(const Field& field,
                                                                 Reading& reading);
[[nodiscard]] std::optional<std::string> readPosition(const Field& field, Reading& reading);

// A position may not be called by the first word of another path.
[[nodiscard]] bool isReservedForPaths(std::string_view name);

}  // namespace rules
