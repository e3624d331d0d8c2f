// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit as the Bedside desk shows it: who it is, what is done, what is next, what stands in the
// way, its set-up. A value in words already, with the instants as data so that a screen can count
// down; it refers to nothing and may be handed to another thread. Knows no screen.
#pragma once

#include "report/bedside_acts.h"
#include "report/bedside_setup.h"
#include "report/part_kinds.h"
#include "report/plan.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace report {

// A hold that says what to do and what not to do.
struct HoldSheet {
    std::string hold;
    std::string label;  // "Held after an incident"
    std::string since;  // "14 Nov 03:40"
    std::string by;     // who set it
    std::vector<std::string> lines;
    std::string lifters;  // who may lift it
};

// For the bar that never scrolls away.
struct BedsideIdentity {
    std::string device;  // the serial, as records name it
    std::string serial;  // the same, safe to show
    std::string asset, label, model;           // "" where it is not known
    std::string place;                         // "ICU", or that it is not known, and since when
    std::optional<std::string> location;       // as recorded; none where it is not known any more
    std::optional<std::string> group;          // the one selected
    std::optional<std::string> groupAsked;     // the one asked for, if another than that
    std::string groupText;                     // "Adult", or that none is selected
    std::string groupAskedText;                // "Neonatal"; "" if none other is asked for
    rules::Verdict verdict{};
    std::string verdictWord;                   // "ready", "in use, paused", "not known"
    std::string verdictText;                   // "ready for Adult"
    std::optional<Instant> readyUntil;
    std::string readyUntilText;                // "Ready until 18:30, if nothing …"; "" otherwise
    std::optional<Instant> inUseSince;
    bool inUse = false, paused = false;        // in use includes paused
    bool inDoubt = false;                      // its records cannot be relied on
    std::string doubtText;                     // then: that, and what to do
    bool isOn = false;                         // by the log; false: off, or not known
    std::vector<HoldSheet> sheets;             // of the holds that stand and have one
};

enum class RowPart {
    Done,     // a check that is current
    Step,     // of the way to ready
    AtStart,  // a check that only a start of use waits for
    Blocker,  // why there is no way to ready
    Finding,  // what else stands: of a unit in use, out of service or without a way to ready the
              // checks that are wanted, in the order in which they go; besides what does not block.
              // Of a use that is paused, last, that it goes on
};

struct BedsideRow {
    RowPart part{};
    std::string key;    // stays the same while the row means the same: "check leak"
    std::string title;  // "Carry out: leak test."
    std::optional<rules::CheckStatus> status;  // of a check: the edge bar
    std::string statusWord;                    // "current", "due"
    std::vector<std::string> remarks;  // "2 min", "not before 13:35: the oxygen sensor went in …"
    std::string why;                   // what calls for it, or why the last attempt does not count
    bool doesNotCount = false;         // the last attempt at the check did not count
    std::string order;                 // of a change of a part in use: what it takes, in order;
                                       // what is offered is the first of it
    std::string lifters;               // of a blocker: who can lift it
    std::string mark;                  // "advisory", "permitted", "needed at the bedside"; or ""

    // Of what is done.
    std::string who, whenDone;  // "J. Linden", "08:00"
    std::optional<logbook::RecordName> record;
    std::optional<Instant> doneAt;

    // Of a step: when a person starts it, is free again, when it is finished; when it may not begin
    // before. Nothing in the other rows, but `notBefore` of a check that is wanted.
    std::optional<Instant> start, attendedUntil, finish, notBefore;
    std::string startText;    // "14:25, in 12 min"; "now"
    bool unattended = false;  // goes on by itself from `attendedUntil` to `finish`

    ActToLog act;
};

struct Bedside {
    BedsideIdentity identity;
    std::vector<BedsideRow> rows;     // in the order in which they are shown
    std::optional<std::size_t> next;  // the row of the next step; without a way to ready none, or
                                      // the part to fit before one can be worked out
    std::string headline;             // "Ready at 09:40, in 55 min." or why not, in one line
    std::optional<Instant> readyAt;
    std::vector<std::string> runsOut;  // what will have run out before the way is gone
    std::string notProved;             // that there may be a quicker order; "" if there is none
    std::vector<SetupPosition> setup;
    Instant asked{};
    Instant knownAt{};
    std::shared_ptr<const rules::Zone> zone;  // for counting down
    std::string edition;
};

struct BedsideQuestion {
    PlanQuestion unit;
    std::map<std::string, TakenOut> takenOut{};  // of the unit, by takenOutUnused()
    std::optional<Instant> placeUnsaidSince{};   // of the unit, by placeUnsaidSince()
};

// None if the unit was never enrolled by then. `state` may be an excerpt that holds the unit.
[[nodiscard]] std::optional<Bedside> makeBedside(rules::State state, words::RecordLookup lookup,
                                                 const BedsideQuestion& question,
                                                 Provenance provenance, const words::Words& words);

// "14:25, in 12 min"; "now" for what need not be waited for. For a screen that counts down.
[[nodiscard]] std::string countdown(const words::Words& words, const rules::Zone& zone,
                                    Instant instant, Instant now);

// The sheets of the holds that stand on the context's device.
[[nodiscard]] std::vector<HoldSheet> holdSheets(const words::Context& context);

// Whether an entry of that kind may change what a hold with a sheet is to keep as it is: cleaning,
// resetting, testing, switching, taking apart, putting it on a patient. It is asked about first;
// nothing forbids it.
[[nodiscard]] bool disturbsEvidence(logbook::Kind kind);

// The same of an entry as it is stated. An emergency start is never delayed by a question.
[[nodiscard]] bool isAskedForHold(std::string_view kind, const logbook::json::Object& body);

}  // namespace report
