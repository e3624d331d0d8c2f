// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Conditions and events as a rulebook names them: `{ "circuit.layout" = "coaxial" }`,
// `fit flow_sensor`. Whether they hold is asked of a device's state in evaluate.h.
#pragma once

#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace rules {

enum class PathKind {
    Feature,      // name: the feature; bool
    Fitted,       // name: the position; bool
    Attribute,    // name: the position, attribute: of the part there; text
    Group,        // the selected group; text
    Model,        // the device's; text
    InUse,        // in use and not paused; bool
    Precautions,  // last_use.precautions; bool
};

struct ConditionEntry {
    PathKind kind{};
    std::string name;
    std::string attribute;
    std::vector<std::variant<bool, std::string>> values;  // holds if one of them does
};

// All entries hold; an empty condition always holds.
using Condition = std::vector<ConditionEntry>;

enum class EventKind {
    Fit, Remove, Change, Reprocess, Group, PowerOn, PowerOff, UseStart, UsePause, UseResume, UseEnd,
    Soil, Alarm, Fault, Clear, Service, Release, Move, Software,
};

inline constexpr std::size_t eventKinds = 19;

// "fit flow_sensor" is {Fit, "flow_sensor"}; "clear *" is {Clear, "*"}; kinds without a subject
// have "". Change stands only in rulebooks: it matches Fit and Remove.
struct Event {
    EventKind kind{};
    std::string subject;
    auto operator<=>(const Event&) const = default;
};

[[nodiscard]] bool takesSubject(EventKind kind);
[[nodiscard]] bool ofPosition(EventKind kind);  // Fit, Remove, Change, Reprocess
[[nodiscard]] std::optional<Event> parseEvent(std::string_view text);
[[nodiscard]] std::string toText(const Event& event);

// Whether an event that happened is one that `pattern` names.
[[nodiscard]] bool matches(const Event& pattern, const Event& happened);

}  // namespace rules
