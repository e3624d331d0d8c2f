// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What tests of the rules engine start from: small rulebooks, a device that is ready by them, and
// answers as short texts to compare. Knows nothing of what any rule should answer.
#pragma once

#include "rules/assess.h"
#include "rules/log.h"
#include "support/log_builder.h"
#include "support/zones.h"

#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

namespace support {

struct BookHead {
    std::string edition = "1";
    std::string zone = "UTC";
    std::string more = {};  // further fields at the top
    std::string ofAdults = {};  // fields of the group
};

// A rulebook for the groups adult, pediatric and neonatal with these sections.
inline std::string book(const std::string& sections, const BookHead& head = {}) {
    return "format = 1\ntitle = \"Kestrel Bay\"\nedition = \"" + head.edition +
           "\"\ntime_zone = \"" + head.zone + "\"\n" + head.more +
           "\n[groups.adult]\n" + head.ofAdults + "[groups.pediatric]\n[groups.neonatal]\n" +
           sections;
}

inline const std::string device = "KB-1";

// A log with that edition adopted at 08:00 and the device enrolled at 08:01, adults selected.
inline LogBuilder logWith(const std::string& rulebook, const Texts& features = {}) {
    LogBuilder log;
    log.adopt(rulebook);
    log.on(device).enrol({"adult"}, features);
    return log;
}

// One that knows the check of the text and nothing else: `check` is what stands in [checks.leak].
inline std::string bookOfLeak(const std::string& check, const std::string& more = "") {
    return book("[checks.leak]\ntakes = \"PT2M\"\n" + check + "\n" + more);
}

inline rules::Log toLog(const LogBuilder& log) { return {log.records(), zones()}; }

struct Asked {
    Instant at = when("12-31 23:00");
    Instant knownAt = rules::unlimited;
    std::optional<std::string> group = std::nullopt;
    std::string device = support::device;
    bool ignoreWaivers = false;
};

inline Asked asked(std::string_view at) { return {when(at)}; }

inline rules::State stateOf(const LogBuilder& log, const Asked& question = {}) {
    const auto all = toLog(log);
    if (!all.faults().empty()) throw std::invalid_argument("a rulebook of the test is refused");
    return all.stateAt(question.at, question.knownAt);
}

inline const rules::Device& deviceOf(const rules::State& state,
                                     const std::string& serial = device) {
    const auto* found = state.device(serial);
    if (!found) throw std::invalid_argument("never enrolled: " + serial);
    return *found;
}

inline rules::Assessment assessed(const LogBuilder& log, const Asked& question = {}) {
    const auto state = stateOf(log, question);
    return rules::assess(state, deviceOf(state, question.device),
                         {question.at, question.group, question.ignoreWaivers, true});
}

inline rules::Assessment assessed(const LogBuilder& log, std::string_view at) {
    return assessed(log, asked(at));
}

template <class Items, class ToText>
std::string joined(const Items& items, ToText toText) {
    std::string all;
    for (const auto& item : items) all += (all.empty() ? "" : ", ") + std::string(toText(item));
    return all;
}

// "due leak, missing circuit": all that is found, blocking or not.
inline std::string findings(const rules::Assessment& assessment) {
    return joined(assessment.findings, [](const auto& each) { return toText(each); });
}

// Those that block the verdict.
inline std::string blocking(const rules::Assessment& assessment) {
    auto found = assessment.findings;
    std::erase_if(found, [](const auto& each) { return each.blocking() != rules::Blocks::Yes; });
    return joined(found, [](const auto& each) { return toText(each); });
}

inline const rules::Finding& finding(const rules::Assessment& assessment, std::string_view text) {
    const auto& all = assessment.findings;
    const auto found = std::find_if(all.begin(), all.end(), [text](const auto& each) {
        return toText(each) == text;
    });
    if (found == all.end()) {
        throw std::invalid_argument(std::string(text) + " is not among: " + findings(assessment));
    }
    return *found;
}

inline std::string verdict(const rules::Assessment& assessment) {
    return std::string(name(assessment.verdict));
}

// Of one check: "current", or "failed" …
inline std::string status(const rules::Assessment& assessment, const std::string& check = "leak") {
    return std::string(name(assessment.checks.at(check)));
}

// The record a finding rests on, "" for none.
inline std::string restsOn(const rules::Finding& found) {
    return found.record ? toText(found.record->name) : "";
}

inline std::string text(const std::optional<Instant>& instant) {
    return instant ? logbook::toText(*instant) : "";
}

// Why the last attempt did not count.
inline std::string reasons(const rules::Finding& found) {
    if (!found.discounted) return "";
    return joined(found.discounted->reasons, [](const auto& each) { return each; });
}

// What the record written last did, on the state that the others leave.
inline rules::Effect lastEffect(const LogBuilder& log) {
    const auto all = toLog(log);
    const auto last = *all.find(log.records().back().name);
    rules::State state;
    state.rulebook = all.firstEdition();
    for (std::size_t index = 0; index < last; ++index) {
        if (all.takesPart(index, rules::unlimited)) {
            rules::fold(state, all.records()[index], all.editions());
        }
    }
    return rules::fold(state, all.records()[last], all.editions());
}

inline std::string events(const rules::Effect& effect) {
    return joined(effect.events, [](const rules::DeviceEvent& each) {
        return each.device + " " + toText(each.event);
    });
}

inline std::string anomalies(const rules::Effect& effect) {
    return joined(effect.anomalies, [](const auto code) { return name(code); });
}

// "KB-1 soil / part_moved / effective": all three at once.
inline std::string did(const LogBuilder& log) {
    const auto effect = lastEffect(log);
    return events(effect) + " / " + anomalies(effect) + " / " +
           (effect.effective ? "effective" : "without effect");
}

}  // namespace support
