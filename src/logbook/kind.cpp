// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of the kinds, in the order of the enumeration.
#include "logbook/kind.h"

#include <algorithm>

namespace logbook {

namespace {

constexpr std::array<std::string_view, kindCount> names{
    "adopt", "person", "notice", "enrol", "retire", "group", "power", "move", "sighted",
    "software", "fit", "remove", "reprocess", "soil", "check", "alarm", "fault", "clear",
    "withdraw", "release", "waive", "notice_done", "service", "use_start", "use_pause",
    "use_resume", "use_end", "note", "review", "sign", "strike"};
static_assert(names[static_cast<std::size_t>(Kind::Strike)] == "strike");

}  // namespace

std::string_view kindName(Kind kind) {
    return names.at(static_cast<std::size_t>(kind));
}

std::optional<Kind> kindOf(std::string_view name) {
    const auto found = std::find_if(names.begin(), names.end(), [&](std::string_view each) {
        return each.size() == name.size() && each[0] == name[0] && each == name;
    });
    if (found == names.end()) {
        return std::nullopt;
    }
    return static_cast<Kind>(found - names.begin());
}

bool isDepartmentWide(Kind kind) {
    return kind == Kind::Adopt || kind == Kind::Person || kind == Kind::Notice ||
           kind == Kind::Sign;
}

bool mustBeTimely(Kind kind) {
    return isDepartmentWide(kind) || kind == Kind::Waive || kind == Kind::Strike;
}

}  // namespace logbook
