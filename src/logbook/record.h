// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A record: one dated statement by one person, written down once and never changed. Its content is
// the canonical JSON that is hashed, kept and exported; the typed fields are read from that.
#pragma once

#include "logbook/day.h"
#include "logbook/instant.h"
#include "logbook/key_map.h"
#include "logbook/kind.h"

#include <compare>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace logbook {

// The largest `seq`: 2^53 - 1, the last whole number up to which a double holds every one.
inline constexpr std::int64_t largestSeq = 9007199254740991;

// Names a record for ever, wherever it is kept.
struct RecordName {
    std::string station;
    std::int64_t seq = 0;
    auto operator<=>(const RecordName&) const = default;
};

[[nodiscard]] std::string toText(const RecordName& name);  // "icu-1/60"
[[nodiscard]] std::optional<RecordName> parseRecordName(std::string_view text);

enum class Outcome { Pass, Fail, Incomplete, InUse, NotLocated, Deferred };
enum class Reuse { SingleUse, SinglePatient, Reusable, Permanent };
enum class Level { Low, High, Sterile };  // of reprocessing; each includes those before it
enum class NoticeAction { StopUse, Inspect, Information };

// The words of these in records and rulebooks.
[[nodiscard]] std::string_view name(Outcome outcome);
[[nodiscard]] std::string_view name(Reuse reuse);
[[nodiscard]] std::string_view name(Level level);
[[nodiscard]] std::string_view name(NoticeAction action);
[[nodiscard]] std::optional<Outcome> outcomeOf(std::string_view text);
[[nodiscard]] std::optional<Reuse> reuseOf(std::string_view text);
[[nodiscard]] std::optional<Level> levelOf(std::string_view text);
[[nodiscard]] std::optional<NoticeAction> noticeActionOf(std::string_view text);

// What a `fit` states of a part. An attribute that is not stated is absent here; one stated as
// empty text is "" (`groups`: an empty list) and clears what was known of the serial.
// `attributes` holds every text attribute, `serial`, `lot`, `model`, `reuse`, `expires` included.
struct StatedPart {
    KeyMap<std::string> attributes;
    std::optional<std::vector<std::string>> groups;  // a set: sorted, no twins
};

struct Measure {
    double value = 0;
    std::string unit;
};

namespace body {
struct Adopt { std::string edition, text; };
struct Person {
    std::string person, name;
    std::vector<std::string> roles;
    std::optional<Day> until;  // valid through that local day
};
// A field that is absent was not given; one that is an empty list matches nothing.
struct Match {
    std::optional<std::string> position;
    std::optional<std::vector<std::string>> lots, serials, partModels;    // of one fitted part
    std::optional<std::vector<std::string>> deviceModels, devices, software;  // of the device
};
struct Notice {
    std::string key, title;
    NoticeAction action{};
    Match match;
    bool cancelled = false;
};
struct Enrol {
    std::string model;
    std::vector<std::string> groups, features;  // sets: sorted, no twins
    Day commissioned{};
    std::optional<std::string> label, asset, maker, udi, location, owner, returnBy;
};
struct Retire { std::string reason; };
struct Group { std::string group; };
struct Power { bool on = false; };
struct Move { std::string location; };
struct Sighted { std::string location; };
struct Software { std::string version; };
struct Fit { std::string position; StatedPart part; };
struct Remove { std::string position; };
struct SerialPart { std::string position, serial; };
struct Reprocess {
    std::vector<std::string> positions;  // of the record's device
    std::vector<SerialPart> parts;       // department-wide
    Level level{};
    std::optional<std::string> load;
};
struct Soil { std::string reason; };
struct Check {
    std::string check;
    Outcome outcome{};
    KeyMap<Measure> measures;
    std::vector<std::string> conditions;  // a set: sorted, no twins
};
struct Alarm { std::string code; };
struct Fault {
    std::string code;
    std::optional<bool> blocking;
    std::optional<std::string> text;
};
struct Clear { std::string code; };
struct Withdraw { std::string hold, reason; };
struct Release { std::string hold; };
struct Waive { std::string finding, subject; Instant until{}; std::string reason; };
struct NoticeDone { std::string key; std::optional<std::string> text; };
struct Service { std::string service; Outcome outcome{}; };
struct UseStart {
    std::optional<std::string> group, location, reason;
    std::optional<bool> precautions;
    bool emergency = false, samePatient = false;
};
struct UsePause { std::string reason; };
struct UseResume {};
struct UseEnd {};
struct Note { std::string text; };
struct Review { RecordName target; std::string disposition, text; };
struct Sign {
    std::string scope;
    std::optional<std::string> month;
    Instant knownAt{};
    std::string digest;
};
struct Strike { RecordName target; std::string reason; };
}  // namespace body

// In the order of Kind, so that the index of the alternative is the kind.
using Body = std::variant<
    body::Adopt, body::Person, body::Notice, body::Enrol, body::Retire, body::Group, body::Power,
    body::Move, body::Sighted, body::Software, body::Fit, body::Remove, body::Reprocess, body::Soil,
    body::Check, body::Alarm, body::Fault, body::Clear, body::Withdraw, body::Release, body::Waive,
    body::NoticeDone, body::Service, body::UseStart, body::UsePause, body::UseResume, body::UseEnd,
    body::Note, body::Review, body::Sign, body::Strike>;

struct Record {
    RecordName name;
    Instant at{};       // when it happened
    Instant entered{};  // when it was written down; never before `at`
    std::string by;     // who wrote it
    std::string device;  // serial; "" for the department-wide kinds
    std::optional<std::string> doneBy, witness, form, batch, movedFrom;
    bool confirmed = true;
    Body body;
    std::string content;  // canonical JSON (RFC 8785), what is hashed and compared

    [[nodiscard]] Kind kind() const { return static_cast<Kind>(body.index()); }
};

// The order in which records are read: (at, entered, station, seq).
[[nodiscard]] std::strong_ordering readingOrder(const Record& a, const Record& b);

}  // namespace logbook
