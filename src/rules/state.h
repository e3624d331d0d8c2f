// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is known after a number of records, read in order: persons, notices, parts, devices. A
// value: copying it is cheap, since devices and parts are shared until one of the copies changes
// them.
#pragma once

#include "logbook/record.h"
#include "rules/rulebook.h"
#include "rules/shared.h"

#include <compare>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace rules {

using logbook::Day;
using logbook::Instant;
using logbook::KeyMap;
using logbook::RecordName;

// A record as a place in the reading order.
struct RecordRef {
    Instant at{};
    Instant entered{};
    RecordName name;
    auto operator<=>(const RecordRef&) const = default;  // the reading order
};

[[nodiscard]] RecordRef refOf(const logbook::Record& record);

// The attributes of a part, as at its last `fit`. Text attributes that were never stated or were
// cleared are absent; serial, lot and model are among them.
struct PartAttributes {
    KeyMap<std::string> texts;
    std::optional<std::vector<std::string>> groups;
    std::optional<logbook::Reuse> reuse;
    std::optional<Day> expires;

    // "" if it is not stated.
    [[nodiscard]] std::string_view text(std::string_view key) const;
    [[nodiscard]] std::string_view serial() const { return text("serial"); }
};

// What a part has been through.
struct PartLife {
    bool used = false;
    std::optional<Instant> firstUse;
    int cycles = 0;
};

// A part with a serial is one thing throughout the log.
struct KnownPart {
    PartAttributes attributes;
    PartLife life;
    std::string device;  // in which it stands; "" if in none
};

using PartKey = std::pair<std::string, std::string>;  // position, serial
using PartKeyView = std::pair<std::string_view, std::string_view>;  // to look one up

struct PartKeyOrder {
    using is_transparent = void;
    template <class One, class Other>
    bool operator()(const One& one, const Other& other) const {
        const int positions = std::string_view(one.first).compare(other.first);
        return positions < 0 ||
               (positions == 0 && std::string_view(one.second) < std::string_view(other.second));
    }
};

struct FittedPart {
    PartAttributes attributes;
    RecordRef fit;  // the record that put it there; `fit.at` is when
    PartLife life;  // of a part without a serial; else see State::parts
};

struct Use {
    RecordRef start;
    bool paused = false;
};

struct StandingHold {
    RecordRef record;
    std::string reason;
};
struct StandingFault {
    RecordRef record;
    std::optional<bool> blocking;
    std::string text;
};
struct StandingWaiver {
    RecordRef record;
    Instant until{};
    std::string reason;
};

struct ServiceState {
    std::optional<RecordRef> lastPass;
    std::optional<RecordRef> lastResult;  // pass or fail
    bool lastFailed = false;
    std::optional<RecordRef> triggered;
};

struct Discounted {
    RecordRef record;
    std::vector<std::string> reasons;  // sorted
};

struct CheckState {
    std::optional<RecordRef> voided;
    std::optional<Event> voidedBy;  // the event that did
    std::optional<RecordRef> last;  // the last counted attempt
    bool lastFailed = false;
    std::optional<RecordRef> lastFailure;
    bool passFollows = false;         // a pass follows both `voided` and the last failure
    bool certainPassFollows = false;  // one of those is certain
    std::optional<Discounted> discounted;
    KeyMap<std::set<std::string>> serialsAtPasses;  // by position
    KeyMap<Instant> lastUpset;  // by station: the last that voided or failed it
};

using WaiverKey = std::pair<std::string, std::string>;  // finding, subject

struct Device {
    std::string serial;
    logbook::body::Enrol enrolment;
    RecordRef enrolled;  // the first enrolment of this life
    bool retired = false;
    std::string location;
    std::string software;
    std::optional<std::string> selectedGroup;  // of the last `group` record
    std::optional<Instant> poweredSince;       // none: off or unknown
    KeyMap<FittedPart> fitted;
    KeyMap<PartAttributes> lastHeld;
    std::optional<Use> use;
    bool precautions = false;  // of the last use
    KeyMap<StandingHold> holds;
    KeyMap<StandingFault> faults;
    std::map<WaiverKey, StandingWaiver> waivers;
    KeyMap<RecordRef> noticesDone;
    KeyMap<ServiceState> services;
    KeyMap<CheckState> checks;
    std::optional<RecordRef> last;  // the last record on it, of whatever kind

    // The group selected; before any `group` record the only one, if there is just one.
    [[nodiscard]] std::optional<std::string> group() const;
};

struct KnownPerson {
    logbook::body::Person person;
    RecordRef record;
};

struct KnownNotice {
    logbook::body::Notice notice;
    RecordRef record;
};

struct State {
    std::shared_ptr<const Rulebook> rulebook;  // in force; before the first adopt, the first
    std::optional<RecordRef> adopted;          // none before the first adopt
    std::map<std::string, KnownPerson, std::less<>> persons;
    std::map<std::string, KnownNotice, std::less<>> notices;
    std::map<PartKey, Shared<KnownPart>, PartKeyOrder> parts;
    std::map<std::string, Shared<Device>, std::less<>> devices;  // enrolled once; retired too

    // Null if the device was never enrolled.
    [[nodiscard]] const Device* device(std::string_view serial) const;
    // What the part in that position has been through, wherever that is kept.
    [[nodiscard]] const PartLife& life(const FittedPart& part, const std::string& position) const;

    // The same with no other devices than these, and of the parts with a serial only those that
    // stand in them and `also`: what a look at a few devices needs, for little.
    [[nodiscard]] State excerpt(const std::set<std::string>& serials,
                                const std::set<PartKey>& also = {}) const;
};

}  // namespace rules
