// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A policy edition, checked: what the department asks of a device before it is ready. All rules of
// the trade stand in the text this is read from; the engine knows none of them by name.
#pragma once

#include "logbook/instant.h"
#include "logbook/kind.h"
#include "logbook/record.h"
#include "rules/condition.h"
#include "rules/zone.h"

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rules {

using logbook::CalendarInterval;
using logbook::Duration;

// A text by language; under "" the one that goes for every language. Empty: there is none.
using Localized = std::map<std::string, std::string, std::less<>>;

struct Named {
    std::string key;
    Localized label;
    Localized advice;
};

struct Group : Named {
    std::optional<int> par;
};

struct Position : Named {
    bool required = false;
    std::optional<Condition> requiredWhen;
    bool matchGroup = false;
    std::optional<Duration> changeAfter;
    std::optional<Duration> changeAfterUse;
    logbook::Reuse reuse = logbook::Reuse::Permanent;
    logbook::Level reprocessLevel = logbook::Level::Low;
    std::optional<int> maxReprocess;
    Duration takes{60'000};
    Duration reprocessTakes{30 * 60'000};
    Duration reprocessAttended{30 * 60'000};
    bool spare = false;
};

struct Choice : Named {
    std::vector<std::string> positions;  // as listed
};

struct Conflict : Named {
    Condition when;
};

enum class Only { Any, NewPart, DifferentAttribute };

struct VoidedBy {
    Event event;
    Only only = Only::Any;
    std::string attribute;            // of DifferentAttribute
    std::optional<Condition> when;    // must hold
    std::optional<Condition> unless;  // must not hold
};

struct NotWith {
    std::string position;
    std::optional<Condition> when;
};

struct NotBefore {
    Event event;  // Fit or PowerOn
    Duration wait{};
};

// A number for every group, or by group.
struct Limit {
    std::optional<double> forAll;
    std::map<std::string, double, std::less<>> byGroup;
};

enum class Breach { Fail, Discount };

struct MeasureRule : Named {
    std::string unit;
    bool required = false;
    std::optional<Limit> min;
    std::optional<Limit> max;
    Breach breach = Breach::Fail;
};

enum class Blocks { No, Yes, Start };

struct Check : Named {
    Duration takes{};
    Duration attended{};
    Blocks blocks = Blocks::Yes;
    bool failBlocks = true;
    bool waivable = false;
    bool duringUse = false;
    bool needsSecond = false;
    Condition appliesWhen;
    std::optional<Duration> validFor;
    std::vector<std::string> needs;
    std::vector<std::string> needsMatch;
    std::vector<NotWith> notWith;
    std::vector<std::string> after;
    std::vector<VoidedBy> voidedBy;
    std::vector<NotBefore> notBefore;
    std::vector<MeasureRule> measures;  // sorted by key
};

// An entry of a check's `voidedBy`, by their places in the lists.
struct Voiding {
    std::uint32_t check = 0;
    std::uint32_t entry = 0;
};

struct Service : Named {
    Condition appliesWhen;
    std::optional<CalendarInterval> every;
    int graceDays = 0;
    bool beforeFirstUse = false;
    std::vector<Event> dueAfter;
};

struct Hold : Named {
    std::optional<std::vector<std::string>> releaseBy;
    std::vector<Localized> sheet;
};

struct FaultRule : Named {
    std::optional<bool> blocking;
};

// Lists are sorted by key.
struct Rulebook {
    std::string title;
    std::string edition;
    std::shared_ptr<const Zone> zone;
    Duration lateEntryAfter{2 * 3'600'000};
    Duration clockTolerance{5 * 60'000};
    Duration maxWaiver{30LL * 86'400'000};
    std::optional<Duration> confirmEvery;
    std::vector<Group> groups;
    std::vector<Position> positions;
    std::vector<Choice> choices;
    std::vector<Conflict> conflicts;
    std::vector<Check> checks;
    std::vector<Service> services;
    std::vector<Hold> holds;
    std::vector<FaultRule> faults;
    std::map<logbook::Kind, std::vector<std::string>> authority;  // kind: roles; absent: anyone
    std::map<std::string, Localized, std::less<>> roleLabels, conditionLabels, featureLabels,
        alarmLabels;
    // What an event of a kind may void, in the order of the checks and their entries; made from
    // them by indexVoidings().
    std::array<std::vector<Voiding>, eventKinds> voidings;

    void indexVoidings();

    // Null if the edition does not name it.
    [[nodiscard]] const Group* group(std::string_view key) const;
    [[nodiscard]] const Position* position(std::string_view key) const;
    [[nodiscard]] const Choice* choice(std::string_view key) const;
    [[nodiscard]] const Conflict* conflict(std::string_view key) const;
    [[nodiscard]] const Check* check(std::string_view key) const;
    [[nodiscard]] const Service* service(std::string_view key) const;
    [[nodiscard]] const Hold* hold(std::string_view key) const;
    [[nodiscard]] const FaultRule* fault(std::string_view key) const;
};

[[nodiscard]] const MeasureRule* findMeasure(const Check& check, std::string_view key);

}  // namespace rules
