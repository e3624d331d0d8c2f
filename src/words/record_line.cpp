// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an entry says, kind by kind. Knows nothing of what it did.
#include "words/record_words.h"

#include "logbook/notice_match.h"
#include "rules/people.h"
#include "words/notice_text.h"
#include "words/record_details.h"
#include "words/shown.h"

namespace words {

namespace {

namespace body = logbook::body;

struct Line {
    const Context& context;
    bool namesOthers = true;  // entries it is about: by what they say

    [[nodiscard]] std::string say(std::string_view key, const Gaps& gaps = {}) const {
        return context.words.say(key, gaps);
    }
    [[nodiscard]] std::string position(std::string_view key) const {
        return context.words.inside(positionLabel(context, key));
    }

    // "icu-1/57 (leak test: passed, 13:05)"; the number alone where it is not known.
    [[nodiscard]] std::string entry(const logbook::RecordName& name) const {
        const auto number = logbook::toText(name);
        const auto* record = namesOthers ? context.record(name) : nullptr;
        if (record == nullptr) return number;
        return say("record.entry", {{"record", number},
                                    {"line", std::visit(Line{context, false}, record->body)},
                                    {"time", context.times().time(record->at)}});
    }

    [[nodiscard]] std::string given(const std::string& reason) const {
        return reason.empty() ? say("record.no_reason") : reason;
    }

    std::string operator()(const body::Adopt& adopt) const {
        return say("record.adopt", {{"edition", adopt.edition}});
    }
    std::string operator()(const body::Person& person) const {
        return say("record.person", {{"person", person.name}});
    }
    std::string operator()(const body::Notice& notice) const {
        return say(notice.cancelled ? "record.notice_cancelled" : "record.notice",
                   {{"notice", readable(notice.key)}, {"title", notice.title}});
    }
    std::string operator()(const body::Enrol& enrol) const {
        return say("record.enrol", {{"model", enrol.model}});
    }
    std::string operator()(const body::Retire&) const { return say("record.retire"); }
    std::string operator()(const body::Group& group) const {
        return say("record.group", {{"group", groupLabel(context, group.group)}});
    }
    std::string operator()(const body::Power& power) const {
        return say(power.on ? "record.power_on" : "record.power_off");
    }
    std::string operator()(const body::Move& move) const {
        return say("record.move", {{"place", move.location}});
    }
    std::string operator()(const body::Sighted& sighted) const {
        return say("record.sighted", {{"place", sighted.location}});
    }
    std::string operator()(const body::Software& software) const {
        return say("record.software", {{"version", software.version}});
    }
    std::string operator()(const body::Fit& fit) const {
        const auto part = statedPart(context, fit.part);
        if (part.empty()) return say("record.fit", {{"position", position(fit.position)}});
        return say("record.fit_part", {{"position", position(fit.position)}, {"part", part}});
    }
    std::string operator()(const body::Remove& remove) const {
        return say("record.remove", {{"position", position(remove.position)}});
    }
    std::string operator()(const body::Reprocess& done) const {
        std::vector<std::string> labels;
        for (const auto& key : done.positions) labels.push_back(position(key));
        for (const auto& part : done.parts)
            labels.push_back(position(part.position) + " " + part.serial);
        return say("record.reprocess",
                   {{"level", say("level." + std::string(logbook::name(done.level)))},
                    {"positions", context.words.all(labels)}});
    }
    std::string operator()(const body::Soil& soil) const {
        return say("record.soil", {{"reason", given(soil.reason)}});
    }
    std::string operator()(const body::Check& check) const {
        auto result = say("record.check_" + std::string(logbook::name(check.outcome)),
                          {{"check", checkLabel(context, check.check)}});
        std::vector<std::string> conditions;
        for (const auto& key : check.conditions)
            conditions.push_back(context.words.inside(conditionLabel(context, key)));
        if (!conditions.empty())
            result = say("record.check_conditions",
                         {{"result", result}, {"conditions", context.words.all(conditions)}});
        std::vector<std::string> measures;
        for (const auto& [key, measure] : check.measures)
            measures.push_back(context.words.inside(measureLabel(context, check.check, key)) + " " +
                               quantity(context.words, measure.value, measure.unit));
        if (measures.empty()) return result;
        return say("record.check_measures",
                   {{"result", result}, {"measures", context.words.all(measures)}});
    }
    std::string operator()(const body::Alarm& alarm) const {
        return say("record.alarm", {{"alarm", alarmLabel(context, alarm.code)}});
    }
    std::string operator()(const body::Fault& fault) const {
        return say("record.fault", {{"fault", faultLabel(context, fault.code)}});
    }
    std::string operator()(const body::Clear& clear) const {
        return say("record.clear", {{"fault", faultLabel(context, clear.code)}});
    }
    std::string operator()(const body::Withdraw& withdraw) const {
        return say("record.withdraw",
                   {{"hold", holdLabel(context, withdraw.hold)},
                    {"reason", given(withdraw.reason)}});
    }
    std::string operator()(const body::Release& release) const {
        return say("record.release", {{"hold", holdLabel(context, release.hold)}});
    }
    std::string operator()(const body::Waive& waive) const {
        return say("record.waive", {{"time", context.times().time(waive.until)},
                                    {"finding", waivedFinding(context, waive)},
                                    {"reason", given(waive.reason)}});
    }
    std::string operator()(const body::NoticeDone& done) const {
        return say("record.notice_done", {{"notice", noticeText(context, done.key)}});
    }
    std::string operator()(const body::Service& service) const {
        return say("record.service_" + std::string(logbook::name(service.outcome)),
                   {{"service", serviceLabel(context, service.service)}});
    }
    std::string operator()(const body::UseStart& start) const {
        auto line = start.location ? say("record.use_start_place", {{"place", *start.location}})
                                   : say("record.use_start");
        if (start.emergency) line += ", " + say("record.emergency");
        if (start.group)
            line += ", " + say("record.for_group", {{"group", groupLabel(context, *start.group)}});
        if (start.samePatient) line += ", " + say("record.same_patient");
        return line;
    }
    std::string operator()(const body::UsePause& pause) const {
        return say("record.use_pause", {{"reason", given(pause.reason)}});
    }
    std::string operator()(const body::UseResume&) const { return say("record.use_resume"); }
    std::string operator()(const body::UseEnd&) const { return say("record.use_end"); }
    std::string operator()(const body::Note& note) const {
        return say("record.note", {{"text", note.text}});
    }
    std::string operator()(const body::Review& review) const {
        Gaps gaps{{"target", entry(review.target)}};
        if (review.disposition == rules::confirmedWord) return say("record.review_confirmed", gaps);
        if (review.disposition == rules::notMineWord) return say("record.review_not_mine", gaps);
        gaps["disposition"] = readable(review.disposition);
        return say("record.review", gaps);
    }
    std::string operator()(const body::Sign& sign) const {
        return say("record.sign", {{"scope", readable(sign.scope)}});
    }
    std::string operator()(const body::Strike& strike) const {
        return say("record.strike",
                   {{"target", entry(strike.target)}, {"reason", given(strike.reason)}});
    }
};

}  // namespace

namespace {

// "icu-1/57 on unit KB-0102", where the entry is known that this one takes the place of.
std::string placeOfOrigin(const Context& context, const std::string& target) {
    const auto name = logbook::parseRecordName(target);
    const auto* record = name ? context.record(*name) : nullptr;
    if (record == nullptr) return target;
    return context.words.say("record.entry_on", {{"record", target}, {"device", record->device}});
}

// What stands about the entry beside what it says: where it came from and who stands for it.
std::vector<std::string> standingOf(const Context& context, const logbook::Record& record) {
    const auto& words = context.words;
    std::vector<std::string> notes;
    if (const auto unknown = logbook::unknownMatchFields(record.kind(), record.content);
        !unknown.empty())
        notes.push_back(words.say("record.match_unknown", {{"fields", words.all(unknown)}}));
    if (record.form) notes.push_back(words.say("record.transcribed", {{"form", *record.form}}));
    if (record.doneBy && *record.doneBy != record.by)
        notes.push_back(
            words.say("record.written_by", {{"person", personName(context, record.by)}}));
    if (record.witness)
        notes.push_back(
            words.say("record.verified_by", {{"person", personName(context, *record.witness)}}));
    const auto* confirmation = record.confirmed ? nullptr : context.confirmation(record.name);
    if (!record.confirmed)
        notes.push_back(confirmation != nullptr ? confirmedBy(context, *confirmation)
                                                : words.say("record.not_signed"));
    if (record.movedFrom)
        notes.push_back(words.say("record.moved_from",
                                  {{"target", placeOfOrigin(context, *record.movedFrom)}}));
    return notes;
}

}  // namespace

std::string confirmedBy(const Context& context, const logbook::Record& confirmation) {
    return context.words.say("record.confirmed_by",
                             {{"person", personName(context, confirmation.by)},
                              {"time", context.times().dated(confirmation.entered)}});
}

std::string recordLine(const Context& context, const logbook::Record& record) {
    std::string notes;
    for (const auto& note : standingOf(context, record))
        notes += (notes.empty() ? "" : "; ") + note;
    const auto line = std::visit(Line{context}, record.body);
    return notes.empty() ? line : line + " (" + notes + ")";
}

std::string placedLine(const Context& context, const logbook::Record& record) {
    return context.words.say(record.device.empty() ? "confirm.line_department" : "confirm.line",
                             {{"record", logbook::toText(record.name)},
                              {"time", context.times().time(record.at)},
                              {"device", record.device},
                              {"entry", recordLine(context, record)}});
}

const std::string& doerOf(const logbook::Record& record) {
    return record.doneBy ? *record.doneBy : record.by;
}

}  // namespace words
