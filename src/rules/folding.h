// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the files that fold one record share: the record's effects on parts, on checks, and the
// voiding that its events bring. For fold.cpp and its neighbours only.
#pragma once

#include "rules/fold.h"
#include "rules/indexed_state.h"

#include <string>
#include <vector>

namespace rules {

// One record on its way onto a state, under the edition in force.
struct Folding {
    State& state;
    const logbook::Record& record;
    const Rulebook& rulebook;
    Effect& effect;
    IndexedState* indexed = nullptr;  // of the state; null: its maps are looked into, and all that
                                      // the record brings about is told
    Reach reach = Reach::All;
    Device* device = nullptr;  // the record's, to be changed; null: not looked for, or none

    [[nodiscard]] RecordRef ref() const { return refOf(record); }
    [[nodiscard]] bool tellsAll() const { return indexed == nullptr; }
    void note(AnomalyCode code) {
        if (tellsAll()) effect.anomalies.push_back(code);
    }
};

// The device to change; it must be in the state, and within the record's reach.
[[nodiscard]] Device& edit(Folding& folding, const std::string& serial);

// Sets `voided` of each check, and `triggered` of each service, that names the event. The device is
// as the event left it. For `fit P`, `before` is the last part the position held before; null if
// none.
void raise(Folding& folding, const std::string& serial, const Event& event,
           const PartAttributes* before = nullptr);

// parts (fold_parts.cpp)
void foldFit(Folding& folding, const logbook::body::Fit& fit);
void foldRemove(Folding& folding, const logbook::body::Remove& remove);
void foldReprocess(Folding& folding, const logbook::body::Reprocess& reprocess);
// All parts now in the device; `onPatient`: `first_use` is set where it was null.
void markUsed(Folding& folding, Device& device, bool onPatient);
// The part in `position` no longer stands in a device.
void takeOut(State& state, Device& device, const std::string& position);
void takeOut(Folding& folding, Device& device, const std::string& position);

// checks (judge.cpp)
struct Judgement {
    bool failure = false;
    std::vector<std::string> reasons;  // why it does not count; sorted; not looked at for a failure
};
[[nodiscard]] Judgement judge(const Folding& folding, const Device& device, const Check& check,
                              const logbook::body::Check& attempt);
void foldCheck(Folding& folding, const logbook::body::Check& attempt);

}  // namespace rules
