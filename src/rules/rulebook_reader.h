// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// TOML text to a checked rulebook, or to the list of everything that is wrong with it.
#pragma once

#include "rules/rulebook.h"

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace rules {

// One thing wrong with, or to be thought about in, a rulebook. `detail` holds what goes into the
// sentence: the word found, the words allowed, the other key.
struct RulebookRemark {
    enum class Code {
        // Faults: the rulebook is refused.
        NotToml,            // detail: the parser's words
        NotUtf8,
        TooLong,            // over 1 MiB
        Missing,            // a required field; path names it
        UnknownField,
        WrongType,          // detail: what is wanted
        BadKey,
        BadWord,            // detail: the words allowed
        BadFormat,          // another `format` than 1
        BadDuration, BadInterval, BadGrace, BadNumber, BadUnit, BadZone, BadEvent, BadPath, BadOnly,
        UnknownPosition, UnknownCheck, UnknownGroup, UnknownService, UnknownMeasure,
        NoGroup,
        Cycle,              // detail: "leak, flow, leak"
        AttendedOverTakes,
        KeyTaken,           // a choice with the key of a position or conflict
        ReservedPosition,   // a position called feature, group, model, in_use or last_use
        MinOverMax,         // detail: the group, or ""
        LimitLacksGroup,    // a required measure; detail: the group
        OnlyWithoutFit,
        BadAuthority,       // a kind that [authority] may not name
        TooLarge,           // a number; detail: the greatest that is taken
        TooMany,            // of a list or table, at the first too many; detail: how many are taken
        // Warnings: it is taken.
        NotVoidedByUseEnd, NotVoidedByRepair, LongValidity, MatchWithoutReuse, LeakDuringUse,
        GroupWithoutCheck,  // detail: the group
        NoAcceptance,
        NoAuthority,        // detail: the kind
        LimitLeavesOutGroup, // detail: the group
        NoLimit,            // a required measure that any value passes
        RoleWithoutLabel,   // where others have one; detail: the role
        ConditionWithoutLabel // likewise; detail: the condition
    };
    Code code{};
    std::string path;  // "checks.leak.takes", "checks.leak.after.0"
    int line = 0;      // from 1; 0 if the place is unknown
    int column = 0;
    std::string detail;
};

struct RulebookReading {
    std::shared_ptr<const Rulebook> rulebook;  // null if there is a fault
    std::vector<RulebookRemark> faults;        // by line and column
    std::vector<RulebookRemark> warnings;
};

// A pure function of the text and the zones.
[[nodiscard]] RulebookReading readRulebook(std::string_view toml, const ZoneSource& zones);

}  // namespace rules
