// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Readiness: what stands between a device and ready, as a pure function of the state, the edition
// in it, an instant and a group.
#pragma once

#include "rules/state.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rules {

enum class Verdict { Ready, NotReady, InUse, Withdrawn, Retired };
enum class CheckStatus { Exempt, Due, Failed, Lapsed, Current };

enum class FindingCode {
    ChangeDue,
    Conflict,
    Due,
    Expired,
    Failed,
    Fault,
    GroupDiffers,
    GroupUnset,
    GroupUnsupported,
    Lapsed,
    Mismatch,
    Missing,
    Notice,
    ServiceDue,
    ServiceFailed,
    ServiceOutstanding,
    ServiceOverdue,
    Spent,
    Unprocessed,
    Unseen,
    Withdrawn,
    WornOut,
};

[[nodiscard]] std::string_view name(Verdict verdict);     // "not_ready"
[[nodiscard]] std::string_view name(CheckStatus status);  // "current"
[[nodiscard]] std::string_view name(FindingCode code);    // "service_overdue"
[[nodiscard]] std::optional<FindingCode> findingCodeOf(std::string_view name);

struct Finding {
    FindingCode code{};
    std::string subject;                 // "" where there is none
    Blocks blocks = Blocks::Yes;         // without the waiver
    std::string reason;                  // "order_uncertain" or ""
    std::optional<Instant> waivedUntil;  // waived until then: it does not block
    std::optional<RecordRef> record;
    std::optional<Instant> since;
    std::optional<Instant> notBefore;  // of a check, where it lies after the instant asked
    std::optional<Discounted> discounted;

    // What the finding does now: Blocks::No while it is waived.
    [[nodiscard]] Blocks blocking() const { return waivedUntil ? Blocks::No : blocks; }
};

[[nodiscard]] std::string toText(const Finding& finding);  // "due leak", "group_unset"

struct Assessment {
    std::string device;
    std::optional<std::string> group;  // asked for, or else the selected one
    Verdict verdict{};
    bool inUse = false;  // paused or not
    bool paused = false;
    std::optional<Instant> readyUntil;  // of ready: the first instant the verdict changes
    std::optional<RecordRef> last;
    std::map<std::string, CheckStatus, std::less<>> checks;
    std::vector<Finding> findings;  // sorted by (code's name, subject)
};

struct Question {
    Instant at{};
    std::optional<std::string> group;  // none: the selected one
    bool ignoreWaivers = false;
    bool wantReadyUntil = true;
    bool wantChecks = true;  // false: `checks` stays empty
};

// `device` is one of `state.devices`. The group asked for need not be one the edition names.
[[nodiscard]] Assessment assess(const State& state, const Device& device, const Question& question);

// Whether something blocks: with `atStart`, checks that only a start of use waits for count too.
[[nodiscard]] bool blocked(const Assessment& assessment, bool atStart);

// A check's not-before at `at`; none if nothing is to be waited for. May lie before `at`.
[[nodiscard]] std::optional<Instant> notBefore(const Device& device, const Check& check,
                                               const Rulebook& rulebook);

// Whether a `power_on` wait asks for the condition `warmed_up`: the device is off or unknown.
[[nodiscard]] bool powerUnknown(const Device& device, const Check& check);

[[nodiscard]] CheckStatus statusOf(const State& state, const Device& device, const Check& check,
                                   Instant at);

}  // namespace rules
