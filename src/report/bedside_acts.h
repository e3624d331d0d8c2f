// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What has to be known to log a step of the way to ready with one press: what a pass asserts, which
// values it asks for and within which limits, which part goes where. Plain data, in words already;
// knows no screen and no record.
#pragma once

#include "logbook/kind.h"
#include "logbook/unit.h"
#include "report/part_proposals.h"
#include "rules/plan.h"
#include "words/context.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace report {

// One thing that a pass asserts besides the check itself, "On mains power". `key` is what the
// record states.
struct AssertedCondition {
    std::string key;
    std::string label;
};

// A value that a check asks for, or takes. Limits are inclusive, in `unit`, for the group that
// `CheckToLog::group` names.
struct AskedMeasure {
    std::string key;
    std::string label;  // "Leak"
    std::string unit;   // of the policy edition, which the record states: "mL/min"
    bool required = false;
    std::optional<double> min, max;
    bool noLimitForGroup = false;  // limits go by group and it has none: with a value the attempt
                                   // does not count
    rules::Breach breach = rules::Breach::Fail;
    // What a value can be at all, by what the unit measures; none where a limit of the edition lies
    // beyond it, since the edition knows better what it measures.
    logbook::Bounds possible;
    std::string limits;   // "at most 200 mL/min for Adult"; "" where there are none
    std::string outside;  // what a value outside means for the attempt
};

struct CheckToLog {
    std::string check;
    std::string label;                          // "Leak test"
    std::vector<AssertedCondition> conditions;  // what a pass asserts, in the edition's order
    std::string asserts;                        // for the button: "Passed, on mains power and …"
    std::string failed;                         // for the other: "Failed"
    std::vector<AskedMeasure> measures;         // required ones first
    bool needsSecond = false;
    std::optional<std::string> group;  // by which its limits go: the one selected, or to be first
    bool groupFirst = false;           // that one has to be selected on the unit before the check
};

// What the edition asks of a part besides: what the attribute is called, "Layout", and the values
// that it looks for, as the record says them.
struct AskedAttribute {
    std::string key;
    std::string label;
    std::vector<std::string> values;
};

struct FitToLog {
    std::string position;
    std::string label;                   // "Flow sensor"
    PartProposal proposed;               // what the new part is like, but for lot, serial, expiry
    std::optional<PartProposal> putBack; // the part taken out of there unused, whole
    bool occupied = false;               // another part is taken out for it
    // Of the further ones, which every part states or none: no model, no reuse.
    std::vector<AskedAttribute> asked;
};

struct RemoveToLog {
    std::string position;
    std::string label;
};

struct ReprocessToLog {
    std::string position;
    std::string label;
    logbook::Level level{};  // the least that counts
    std::string levelText;   // "high-level disinfection"
};

struct GroupToLog {
    std::string group;
    std::string label;
};

struct PowerToLog {
    bool on = true;
};

// A service, of which it is still to be said what came of it.
struct ServiceToLog {
    std::string service;
    std::string label;  // "Acceptance test"
};

// A use is paused for something to be done on the unit: the first step of a change on a patient.
struct PauseToLog {
    std::string reason;  // as the record says it: "Circuit to be changed"
};

// It goes on, the last step of such a change.
struct ResumeToLog {};

// Nothing: there is nothing to log in the row.
using ActToLog = std::variant<std::monostate, CheckToLog, FitToLog, RemoveToLog, ReprocessToLog,
                              GroupToLog, PowerToLog, ServiceToLog, PauseToLog, ResumeToLog>;

// Whether a value below 0 is to be thought of: one can be measured, and where the edition has
// limits one of them is below 0 too.
[[nodiscard]] bool mayBeNegative(const AskedMeasure& measure);

// Whether an entry of that kind says nothing without that field; what it may lack may stay empty.
// "before" of a start: whether the use that the log still has is over.
[[nodiscard]] bool mustBeAnswered(logbook::Kind kind, std::string_view field);

// `selecting`: a group that is to be selected first, or none. The context is about the unit.
[[nodiscard]] CheckToLog checkToLog(const words::Context& context, const rules::Check& check,
                                    const std::optional<std::string>& selecting = {});

// The same of a position; the group is the one that the part has to suit.
[[nodiscard]] FitToLog fitToLog(const words::Context& context, const std::string& position,
                                const std::optional<std::string>& group);
[[nodiscard]] RemoveToLog removeToLog(const words::Context& context, const std::string& position);
[[nodiscard]] ReprocessToLog reprocessToLog(const words::Context& context,
                                            const rules::Position& position);

// Whether a value may be kept as it is, asked before it is.
struct MeasureJudgement {
    enum class Standing {
        Within,          // also where there is no limit
        Fails,           // out of limits: the check has failed
        DoesNotCount,    // out of limits, or no limit for the group: the attempt is discounted
        Impossible,      // within what the edition limits, but nothing measured can be that
        OtherDimension,  // that unit measures something else: it cannot be kept
        NotANumber,
    };
    Standing standing = Standing::Within;
    std::string sentence;  // "" where it is within
    double value = 0;      // in the unit of the policy edition
    bool isImpossible = false;  // nothing measured can be that, wherever it stands
};

// `unit` is that in which it was typed, and in which it is answered.
[[nodiscard]] MeasureJudgement judge(const words::Words& words, const AskedMeasure& measure,
                                     double value, std::string_view unit);

// The units in which its values may be typed, the usual one first, then the edition's.
[[nodiscard]] std::vector<std::string> unitsFor(const AskedMeasure& measure,
                                                const std::string& usual);

// The measure's limits in another unit, "at most 0.2 L/min"; "" where there are none, or the unit
// measures something else.
[[nodiscard]] std::string limitsIn(const words::Words& words, const AskedMeasure& measure,
                                   std::string_view unit);

// As typed, with a decimal point or comma; nothing if it is no number.
[[nodiscard]] std::optional<double> typedNumber(std::string_view text);

}  // namespace report
