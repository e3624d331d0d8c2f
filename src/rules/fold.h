// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Folding: one record at a time onto a state, in the reading order.
#pragma once

#include "rules/state.h"

#include <string>
#include <vector>

namespace rules {

enum class AnomalyCode {
    ClockBack,
    PartMoved,
    ResumedUnready,
    Unauthorised,
    Unenrolled,
    UnknownKey,
    UseEndMissing,
    WaiverRefused,
};

[[nodiscard]] std::string_view name(AnomalyCode code);  // "clock_back"

struct DeviceEvent {
    std::string device;
    Event event;
};

// What one record did.
struct Effect {
    bool effective = false;     // it took effect, or is of a kind that has none
    bool endedUse = false;      // a `use_end` that took effect, implied ones left out
    bool countedStart = false;  // a `use_start` that is a start: not same patient while in use
    std::vector<AnomalyCode> anomalies;  // sorted by name; clock_back is not among them
    std::vector<DeviceEvent> events;
};

// Rulebooks by the record that adopts them: parsed once, whatever is folded how often.
using Editions = std::map<RecordName, std::shared_ptr<const Rulebook>>;

// `state.rulebook` must be set (the first edition of the log, before any adopt). `editions` holds
// the rulebook of every `adopt` record that will be folded.
Effect fold(State& state, const logbook::Record& record, const Editions& editions);
// The same; whatever `effect` told before is replaced.
void fold(State& state, const logbook::Record& record, const Editions& editions, Effect& effect);

// Puts an edition in force, as an effective `adopt` does; `record` is the place of that.
void adopt(State& state, const std::shared_ptr<const Rulebook>& edition, const RecordRef& record);

// The `use_end` that a start of use (of another patient) implies just before it, if the device is
// in use: the state on which a start is judged.
void applyImpliedUseEnd(State& state, const logbook::Record& start);

}  // namespace rules
