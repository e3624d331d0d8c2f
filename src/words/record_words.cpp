// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What records did, who may write them, what is odd about them. Lines of entries are made in
// record_line.cpp.
#include "words/record_words.h"

#include "words/finding_words.h"
#include "words/shown.h"

namespace words {

namespace {

namespace body = logbook::body;
using rules::AnomalyCode;
using rules::Event;
using rules::EventKind;

// The event that a record of its kind raises on its own device, as far as its body tells.
struct EventOf {
    std::string device;

    std::optional<Event> operator()(const body::Fit& fit) const {
        return Event{EventKind::Fit, fit.position};
    }
    std::optional<Event> operator()(const body::Remove& remove) const {
        return Event{EventKind::Remove, remove.position};
    }
    std::optional<Event> operator()(const body::Reprocess& done) const {
        if (done.positions.empty()) return std::nullopt;
        return Event{EventKind::Reprocess, done.positions.front()};
    }
    std::optional<Event> operator()(const body::Group&) const {
        return Event{EventKind::Group, ""};
    }
    std::optional<Event> operator()(const body::Power& power) const {
        return Event{power.on ? EventKind::PowerOn : EventKind::PowerOff, ""};
    }
    std::optional<Event> operator()(const body::UseStart&) const {
        return Event{EventKind::UseStart, ""};
    }
    std::optional<Event> operator()(const body::UsePause&) const {
        return Event{EventKind::UsePause, ""};
    }
    std::optional<Event> operator()(const body::UseResume&) const {
        return Event{EventKind::UseResume, ""};
    }
    std::optional<Event> operator()(const body::UseEnd&) const {
        return Event{EventKind::UseEnd, ""};
    }
    std::optional<Event> operator()(const body::Soil&) const { return Event{EventKind::Soil, ""}; }
    std::optional<Event> operator()(const body::Alarm& alarm) const {
        return Event{EventKind::Alarm, alarm.code};
    }
    std::optional<Event> operator()(const body::Fault& fault) const {
        return Event{EventKind::Fault, fault.code};
    }
    std::optional<Event> operator()(const body::Clear& clear) const {
        return Event{EventKind::Clear, clear.code};
    }
    std::optional<Event> operator()(const body::Service& service) const {
        return Event{EventKind::Service, service.service};
    }
    std::optional<Event> operator()(const body::Release& release) const {
        return Event{EventKind::Release, release.hold};
    }
    std::optional<Event> operator()(const body::Move&) const { return Event{EventKind::Move, ""}; }
    std::optional<Event> operator()(const body::Software&) const {
        return Event{EventKind::Software, ""};
    }
    template <class Other>
    std::optional<Event> operator()(const Other&) const {
        return std::nullopt;
    }
};

// The first key in the record that the edition does not name.
struct UnknownKeyOf {
    const rules::Rulebook& rulebook;

    std::string operator()(const body::Fit& fit) const { return fit.position; }
    std::string operator()(const body::Remove& remove) const { return remove.position; }
    std::string operator()(const body::Check& check) const { return check.check; }
    std::string operator()(const body::Service& service) const { return service.service; }
    std::string operator()(const body::Waive& waive) const { return waive.subject; }
    std::string operator()(const body::Reprocess& done) const {
        for (const auto& position : done.positions)
            if (!rulebook.position(position)) return position;
        for (const auto& part : done.parts)
            if (!rulebook.position(part.position)) return part.position;
        return "";
    }
    template <class Other>
    std::string operator()(const Other&) const {
        return "";
    }
};

std::string holdOf(const logbook::Record& record) {
    if (const auto* release = std::get_if<body::Release>(&record.body)) return release->hold;
    return "";
}

Sentence unauthorised(const Context& context, const logbook::Record& record) {
    const bool transcribed = record.form && record.doneBy;
    const Gaps gaps{{"person", personName(context, transcribed ? *record.doneBy : record.by)},
                    {"act", actWords(context.words, record.kind())}};
    const auto says = context.words.say("anomaly.unauthorised.says", gaps);
    const auto roles = rolesFor(context, record.kind(), holdOf(record));
    if (roles.empty()) return {says, context.words.say("anomaly.unauthorised_plain.do")};
    return {says,
            context.words.say("anomaly.unauthorised.do", {{"roles", roleList(context, roles)}})};
}

// Who may strike, and is refused, may not lift the warning that the strike would take away.
std::string refusedAct(const Context& context, const logbook::Record& record) {
    const auto* strike = std::get_if<body::Strike>(&record.body);
    const auto* target = strike ? context.record(strike->target) : nullptr;
    if (target) {
        const auto roles = rolesFor(context, logbook::Kind::Strike);
        const bool mayStrike = roles.empty() || target->by == record.by ||
                               rules::holdsRole(context.state, record.by, roles, record.at);
        if (mayStrike && target->kind() == logbook::Kind::Fault)
            return context.words.say("safeguard.strike_fault");
        if (mayStrike && target->kind() == logbook::Kind::Withdraw)
            return context.words.say("safeguard.strike_hold");
    }
    return actWords(context.words, record.kind());
}

std::string anomalyKey(AnomalyCode code) {
    switch (code) {
        case AnomalyCode::ClockBack: return "anomaly.clock_back";
        case AnomalyCode::PartMoved: return "anomaly.part_moved";
        case AnomalyCode::ResumedUnready: return "anomaly.resumed_unready";
        case AnomalyCode::Unauthorised: return "anomaly.unauthorised";
        case AnomalyCode::Unenrolled: return "anomaly.unenrolled";
        case AnomalyCode::UnknownKey: return "anomaly.unknown_key";
        case AnomalyCode::UseEndMissing: return "anomaly.use_end_missing";
        case AnomalyCode::WaiverRefused: break;
    }
    return "anomaly.waiver_refused";
}

std::string classKey(rules::StartClass startClass) {
    switch (startClass) {
        case rules::StartClass::Compliant: return "compliant";
        case rules::StartClass::CompliantLate: return "compliant_late";
        case rules::StartClass::CompliantWaived: return "compliant_waived";
        case rules::StartClass::Emergency: return "emergency";
        case rules::StartClass::Noncompliant: break;
    }
    return "noncompliant";
}

}  // namespace

std::string recordClause(const Context& context, const logbook::Record& record) {
    auto event = std::visit(EventOf{record.device}, record.body);
    if (!event)
        return context.words.say("event.other", {{"when", context.times().when(record.at)}});
    // A part fitted elsewhere left this unit.
    const bool elsewhere = context.device && record.device != context.device->serial;
    if (event->kind == EventKind::Fit && elsewhere) event->kind = EventKind::Remove;
    return eventClause(context, *event, record.at);
}

std::string actWords(const Words& words, logbook::Kind kind) {
    return words.say("act." + std::string(logbook::kindName(kind)));
}

Notice refusal(const Context& context, const logbook::Record& record,
               const rules::Permission& permission) {
    const Gaps gaps{{"person", personName(context, record.by)},
                    {"act", refusedAct(context, record)},
                    {"roles", rolesWithPeople(context, permission.roles)}};
    const std::string key = permission.roles.empty() ? "refusal.nobody" : "refusal.roles";
    return {context.words.say(key + ".says", gaps), context.words.say(key + ".safe", gaps),
            context.words.say(key + ".do", gaps)};
}

Sentence anomaly(const Context& context, const logbook::Record& record, AnomalyCode code) {
    if (code == AnomalyCode::Unauthorised) return unauthorised(context, record);
    Gaps gaps{{"when", context.times().when(record.at)}, {"station", record.name.station}};
    if (code == AnomalyCode::ClockBack) gaps["when"] = context.times().when(record.entered);
    gaps["key"] = readable(std::visit(UnknownKeyOf{*context.state.rulebook}, record.body));
    gaps["position"] = gaps["serial"] = "";
    if (const auto* fit = std::get_if<body::Fit>(&record.body)) {
        gaps["position"] = context.words.inside(positionLabel(context, fit->position));
        const auto serial = fit->part.attributes.find("serial");
        if (serial != fit->part.attributes.end()) gaps["serial"] = serial->second;
    }
    return context.words.sentence(anomalyKey(code), gaps);
}

std::string classWord(const Words& words, rules::StartClass startClass) {
    return words.say("class." + classKey(startClass));
}

std::string classMeaning(const Words& words, rules::StartClass startClass) {
    return words.say("class_means." + classKey(startClass));
}

std::string task(const Context& context, std::string_view kind, std::string_view name,
                 bool putBack) {
    const auto& words = context.words;
    const auto* position = context.state.rulebook->position(name);
    const auto level = position ? position->reprocessLevel : logbook::Level::Low;
    const std::string key = putBack ? "task.put_back" : "task." + std::string(kind);
    return words.say(key, {{"group", groupLabel(context, name)},
                           {"position", words.inside(positionLabel(context, name))},
                           {"level", words.say("level." + std::string(logbook::name(level)))},
                           {"check", words.inside(checkLabel(context, name))}});
}

std::string readyLine(const Context& context, logbook::Instant readyAt) {
    if (readyAt <= context.asked) return context.words.say("task.ready_now");
    return context.words.say("task.ready_at",
                             {{"time", context.times().time(wholeMinute(readyAt))},
                              {"wait", wait(context.words, readyAt - context.asked)}});
}

std::string unattended(const Words& words, logbook::Duration span) {
    return words.say("task.unattended", {{"duration", duration(words, span)}});
}

Sentence blocker(const Context& context, std::string_view blocker) {
    const auto blank = blocker.find(' ');
    const auto word = std::string(blocker.substr(0, blank));
    const auto name =
        blank == std::string_view::npos ? std::string_view() : blocker.substr(blank + 1);
    return context.words.sentence(
        "blocker." + word, {{"position", context.words.inside(positionLabel(context, name))}});
}

}  // namespace words
