// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records in words: what an entry says, what it did, who may write it, what is odd about it.
#pragma once

#include "rules/authority.h"
#include "rules/month.h"
#include "words/context.h"

#include <string>
#include <vector>

namespace words {

// What the entry says, for a list of entries beside who did it: "Leak test: failed; leak
// 180 mL/min (transcribed, form 17; written down by Morgan Thistle)".
[[nodiscard]] std::string recordLine(const Context& context, const logbook::Record& record);

// "confirmed by Robin Sorrel, 2 Mar 09:10".
[[nodiscard]] std::string confirmedBy(const Context& context, const logbook::Record& confirmation);

// The same where nothing beside it tells which entry it is: "icu-1/24  2 Mar 08:30, unit KB-0142:
// Use started".
[[nodiscard]] std::string placedLine(const Context& context, const logbook::Record& record);

// Who did what it says: the one named for it, else its writer.
[[nodiscard]] const std::string& doerOf(const logbook::Record& record);

// What it did, as a clause: "the flow sensor was changed at 02:10".
[[nodiscard]] std::string recordClause(const Context& context, const logbook::Record& record);

// "clear a fault": completes "may" and "may not".
[[nodiscard]] std::string actWords(const Words& words, logbook::Kind kind);

// Why the person may not write the record, and who may. Precondition: not allowed.
[[nodiscard]] Notice refusal(const Context& context, const logbook::Record& record,
                             const rules::Permission& permission);

[[nodiscard]] Sentence anomaly(const Context& context, const logbook::Record& record,
                               rules::AnomalyCode code);

[[nodiscard]] std::string classWord(const Words& words, rules::StartClass startClass);
[[nodiscard]] std::string classMeaning(const Words& words, rules::StartClass startClass);

// A step of a way to ready, "Fit: flow sensor.", from its kind (group, remove, reprocess, fit,
// check) and its name. `putBack`: the fit of the same part that was taken out.
[[nodiscard]] std::string task(const Context& context, std::string_view kind, std::string_view name,
                               bool putBack = false);

// When the way to ready ends, "Ready at 09:40, in 55 min."; at the instant asked: "Ready now."
[[nodiscard]] std::string readyLine(const Context& context, logbook::Instant readyAt);

// Of a step that goes on by itself: "runs on its own for 25 min".
[[nodiscard]] std::string unattended(const Words& words, logbook::Duration span);

// Why there is no way to ready: "in_use", "retired", "closing_fit hme", "order". Blockers that are
// findings are said by `sentence`.
[[nodiscard]] Sentence blocker(const Context& context, std::string_view blocker);

}  // namespace words
