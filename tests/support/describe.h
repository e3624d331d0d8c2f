// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whole answers and whole states as text, so that two can be compared and what differs be read.
#pragma once

#include "rules/month.h"
#include "support/rules_world.h"

#include <string>

namespace support {

// Declared first, so that the templates below find them.
inline std::string describe(const rules::RecordRef& ref);
inline std::string describe(const Instant& instant);
inline std::string describe(const std::string& value);
inline std::string describe(bool value);
inline std::string describe(const rules::Event& event);
inline std::string describe(const rules::Discounted& attempt);
inline std::string describe(const rules::PartAttributes& part);
inline std::string describe(const rules::PartLife& life);

inline std::string describe(const rules::RecordRef& ref) {
    return toText(ref.name) + "@" + logbook::toText(ref.at) + "/" + logbook::toText(ref.entered);
}

template <class Value>
std::string describe(const std::optional<Value>& value) {
    return value ? describe(*value) : std::string("-");
}

inline std::string describe(const Instant& instant) { return logbook::toText(instant); }
inline std::string describe(const std::string& value) { return value; }
inline std::string describe(const rules::Event& event) { return toText(event); }
inline std::string describe(bool value) { return value ? "yes" : "no"; }

template <class First, class... More>
std::string line(const First& first, const More&... more) {
    std::string all = describe(first);
    ((all += " | " + describe(more)), ...);
    return all + "\n";
}

inline std::string describe(const rules::Discounted& attempt) {
    return describe(attempt.record) + " " +
           joined(attempt.reasons, [](const auto& each) { return each; });
}

inline std::string describe(const rules::Finding& found) {
    return line(toText(found), std::to_string(static_cast<int>(found.blocks)), found.reason,
                found.waivedUntil, found.record, found.since, found.notBefore, found.discounted);
}

inline std::string describe(const rules::Assessment& assessment) {
    std::string all = line(assessment.device, assessment.group, verdict(assessment),
                           assessment.inUse, assessment.paused, assessment.readyUntil,
                           assessment.last);
    for (const auto& [check, status] : assessment.checks) {
        all += line(check, std::string(name(status)));
    }
    for (const auto& found : assessment.findings) all += describe(found);
    return all;
}

inline std::string describe(const rules::PartAttributes& part) {
    std::string all;
    for (const auto& [key, value] : part.texts) all += key + "=" + value + " ";
    for (const auto& group : part.groups.value_or(Texts{})) all += group + " ";
    if (part.reuse) all += std::string(logbook::name(*part.reuse)) + " ";
    if (part.expires) all += logbook::toText(*part.expires);
    return all;
}

inline std::string describe(const rules::PartLife& life) {
    return describe(life.used) + " " + describe(life.firstUse) + " " + std::to_string(life.cycles);
}

inline std::string describe(const rules::CheckState& check) {
    std::string all = line(check.voided, check.voidedBy, check.last, check.lastFailed,
                           check.lastFailure, check.passFollows, check.certainPassFollows,
                           check.discounted);
    for (const auto& [position, serials] : check.serialsAtPasses) {
        all += line(position, joined(serials, [](const auto& each) { return each; }));
    }
    for (const auto& [station, at] : check.lastUpset) all += line(station, at);
    return all;
}

inline std::string describe(const rules::Device& on) {
    const auto& enrolment = on.enrolment;
    std::string all = line(on.serial, enrolment.model, on.enrolled, on.retired,
                           on.location, on.software, on.selectedGroup,
                           on.poweredSince, on.precautions, on.last);
    all += joined(enrolment.groups, [](const auto& each) { return each; }) + "\n";
    all += joined(enrolment.features, [](const auto& each) { return each; }) + "\n";
    if (on.use) all += line(on.use->start, on.use->paused);
    for (const auto& [position, part] : on.fitted) {
        all += line(position, part.attributes, part.fit, part.life);
    }
    for (const auto& [position, part] : on.lastHeld) all += line(position, part);
    for (const auto& [hold, standing] : on.holds) all += line(hold, standing.record);
    for (const auto& [code, standing] : on.faults) all += line(code, standing.record);
    for (const auto& [key, waiver] : on.waivers) {
        all += line(key.first, key.second, waiver.record, waiver.until);
    }
    for (const auto& [key, done] : on.noticesDone) all += line(key, done);
    for (const auto& [key, service] : on.services) {
        all += line(key, service.lastPass, service.lastResult, service.lastFailed,
                    service.triggered);
    }
    for (const auto& [key, check] : on.checks) all += key + ": " + describe(check);
    return all;
}

inline std::string describe(const rules::State& state) {
    std::string all = line(state.rulebook->edition, state.adopted);
    for (const auto& [person, known] : state.persons) all += line(person, known.record);
    for (const auto& [key, notice] : state.notices) all += line(key, notice.record);
    for (const auto& [key, part] : state.parts) {
        all += line(key.first, key.second, part->attributes, part->life, part->device);
    }
    for (const auto& [serial, on] : state.devices) all += describe(*on);
    return all;
}

// Every device for its selected group and for one that is asked for.
inline std::string describeBoard(const rules::State& state, Instant at) {
    std::string all;
    for (const auto& [serial, on] : state.devices) {
        all += describe(rules::assess(state, *on, {at, std::nullopt, false, true}));
        all += describe(rules::assess(state, *on, {at, "adult", true, true}));
    }
    return all;
}

inline std::string describeMonth(const rules::Log& log, const rules::MonthQuestion& question) {
    const auto answer = rules::month(log, question);
    if (!answer) return "no edition";
    const auto nameOf = [&log](std::size_t index) { return toText(log.records()[index].name); };
    std::string all = line(answer->from, answer->to);
    for (const int count : answer->starts) all += std::to_string(count) + " ";
    for (const auto& each : answer->exceptions) {
        all += line(nameOf(each.record), std::string(name(each.startClass)), each.usedOnHold,
                    each.unenrolled, each.late);
        for (const auto& found : each.findings) all += describe(found);
    }
    for (const auto& each : answer->anomalies) {
        all += line(nameOf(each.record), std::string(name(each.code)));
    }
    return all + describe(answer->end);
}

}  // namespace support
