// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fields of an entry, kind by kind; see record_details.h.
#include "words/record_details.h"

#include "words/attribute_text.h"
#include "words/notice_text.h"
#include "words/shown.h"

#include <algorithm>

namespace words {

namespace {

namespace body = logbook::body;

// The attributes of a part that have a label of their own, in the order of a label on a part.
constexpr const char* namedAttributes[] = {"model", "serial", "lot", "expires", "reuse"};

std::string dayText(const Context& context, const std::string& text) {
    const auto day = logbook::parseDay(text);
    return day ? context.times().dayWithYear(*day) : text;
}

class Fields {
public:
    explicit Fields(const Context& context) : m_context(context) {}

    [[nodiscard]] std::vector<Detail> take() { return std::move(m_details); }

    void operator()(const body::Enrol& enrol) {
        add("model", enrol.model);
        addGroups(enrol.groups);
        std::vector<std::string> features;
        for (const auto& each : enrol.features) features.push_back(featureLabel(m_context, each));
        add("features", m_context.words.all(features));
        add("commissioned", m_context.times().dayWithYear(enrol.commissioned));
        add("label", enrol.label);
        add("asset", enrol.asset);
        add("maker", enrol.maker);
        add("udi", enrol.udi);
        add("place", enrol.location);
        add("owner", enrol.owner);
        if (enrol.returnBy) add("return_by", dayText(m_context, *enrol.returnBy));
    }
    void operator()(const body::Retire& retire) { addReason(retire.reason); }
    void operator()(const body::Group& group) { add("group", groupLabel(m_context, group.group)); }
    void operator()(const body::Power& power) {
        add("power", say(power.on ? "detail.on" : "detail.off"));
    }
    void operator()(const body::Move& move) { add("place", move.location); }
    void operator()(const body::Sighted& sighted) { add("place", sighted.location); }
    void operator()(const body::Software& software) { add("version", software.version); }
    void operator()(const body::Fit& fit) {
        add("position", positionLabel(m_context, fit.position));
        const auto& stated = fit.part.attributes;
        for (const auto* key : namedAttributes)
            if (const auto found = stated.find(key); found != stated.end())
                addAttribute(key, found->second);
        if (fit.part.groups) addGroups(*fit.part.groups);
        for (const auto& [key, text] : stated) {
            const bool isNamed = std::ranges::any_of(
                namedAttributes, [&](const char* named) { return key == named; });
            if (!isNamed && !text.empty())
                m_details.emplace_back(capitalized(attributeLabel(m_context.words, key)),
                                       attributeText(text));
        }
    }
    void operator()(const body::Remove& remove) {
        add("position", positionLabel(m_context, remove.position));
    }
    void operator()(const body::Reprocess& done) {
        std::vector<std::string> labels;
        for (const auto& key : done.positions) labels.push_back(positionLabel(m_context, key));
        for (const auto& part : done.parts)
            labels.push_back(positionLabel(m_context, part.position) + " " + shown(part.serial));
        add("position", m_context.words.all(labels));
        add("level", say("level." + std::string(logbook::name(done.level))));
        add("load", done.load);
    }
    void operator()(const body::Soil& soil) { addReason(soil.reason); }
    void operator()(const body::Check& check) {
        add("check", checkLabel(m_context, check.check));
        addOutcome(logbook::name(check.outcome));
        for (const auto& [key, measure] : check.measures)
            m_details.emplace_back(measureLabel(m_context, check.check, key),
                                   quantity(m_context.words, measure.value, measure.unit));
        std::vector<std::string> conditions;
        for (const auto& key : check.conditions)
            conditions.push_back(conditionLabel(m_context, key));
        if (!conditions.empty()) add("conditions", m_context.words.all(conditions));
    }
    void operator()(const body::Alarm& alarm) { add("alarm", alarmLabel(m_context, alarm.code)); }
    void operator()(const body::Fault& fault) {
        add("fault", faultLabel(m_context, fault.code));
        if (fault.blocking)
            add("blocking", say(*fault.blocking ? "detail.blocks" : "detail.blocks_not"));
        add("text", fault.text);
    }
    void operator()(const body::Clear& clear) { add("fault", faultLabel(m_context, clear.code)); }
    void operator()(const body::Withdraw& withdraw) {
        add("hold", holdLabel(m_context, withdraw.hold));
        addReason(withdraw.reason);
    }
    void operator()(const body::Release& release) {
        add("hold", holdLabel(m_context, release.hold));
    }
    void operator()(const body::Waive& waive) {
        add("finding", capitalized(waivedFinding(m_context, waive)));
        add("until", m_context.times().full(waive.until));
        addReason(waive.reason);
    }
    void operator()(const body::NoticeDone& done) {
        add("notice", noticeText(m_context, done.key));
        add("text", done.text);
    }
    void operator()(const body::Service& service) {
        add("service", serviceLabel(m_context, service.service));
        addOutcome(logbook::name(service.outcome));
    }
    void operator()(const body::UseStart& start) {
        if (start.emergency) add("emergency", say("detail.yes"));
        if (start.group) add("group", groupLabel(m_context, *start.group));
        add("place", start.location);
        if (start.precautions)
            add("precautions", say(*start.precautions ? "detail.yes" : "detail.no"));
        if (start.samePatient) add("same_patient", say("detail.yes"));
        add("reason", start.reason);
    }
    void operator()(const body::UsePause& pause) { addReason(pause.reason); }
    void operator()(const body::Note& note) { add("text", note.text); }
    void operator()(const body::Review& review) {
        add("target", logbook::toText(review.target));
        add("text", review.text);
    }
    void operator()(const body::Strike& strike) {
        add("target", logbook::toText(strike.target));
        addReason(strike.reason);
    }
    template <class Other>
    void operator()(const Other&) {}

private:
    [[nodiscard]] std::string say(std::string_view key) const { return m_context.words.say(key); }

    // What is not given is not told.
    void add(std::string_view field, const std::string& text) {
        if (!text.empty())
            m_details.emplace_back(say("detail." + std::string(field)), shown(text));
    }
    void add(std::string_view field, const std::optional<std::string>& text) {
        if (text) add(field, *text);
    }
    void addOutcome(std::string_view outcome) {
        add("outcome", say("outcome." + std::string(outcome)));
    }
    void addReason(const std::string& reason) { add("reason", reason); }
    void addGroups(const std::vector<std::string>& groups) {
        std::vector<std::string> labels;
        for (const auto& group : groups) labels.push_back(groupLabel(m_context, group));
        add("groups", m_context.words.all(labels));
    }
    void addAttribute(std::string_view key, const std::string& text) {
        if (text.empty()) return;
        if (key == "expires") {
            add(key, dayText(m_context, text));
        } else if (key == "reuse" && logbook::reuseOf(text)) {
            add(key, say("reuse." + text));
        } else {
            add(key, text);
        }
    }

    const Context& m_context;
    std::vector<Detail> m_details;
};

}  // namespace

std::string waivedFinding(const Context& context, const logbook::body::Waive& waive) {
    const auto code = rules::findingCodeOf(waive.finding);
    if (!code) return readable(waive.finding);
    const auto label = subjectLabel(context, {.code = *code, .subject = waive.subject});
    const auto inside = context.words.inside(label);
    if (*code == rules::FindingCode::Mismatch)
        return context.words.say("record.waive_mismatch", {{"position", inside}});
    return context.words.say("brief." + waive.finding, {{"hold", inside},
                                                        {"fault", inside},
                                                        {"notice", inside},
                                                        {"service", inside},
                                                        {"position", inside},
                                                        {"conflict", inside},
                                                        {"check", inside},
                                                        {"group", label}});
}

std::vector<Detail> recordDetails(const Context& context, const logbook::Record& record) {
    Fields fields(context);
    std::visit(fields, record.body);
    return fields.take();
}

std::string statedPart(const Context& context, const logbook::StatedPart& part) {
    const auto& words = context.words;
    std::string text;
    const auto add = [&text](const std::string& more) {
        text += (text.empty() ? "" : ", ") + more;
    };
    for (const auto* key : {"serial", "lot", "model", "expires"}) {
        const auto found = part.attributes.find(key);
        if (found == part.attributes.end() || found->second.empty()) continue;
        const std::string_view field(key);
        if (field == "lot") {
            add(words.say("explain.part_lot", {{"lot", found->second}}));
        } else if (field == "expires") {
            add(words.say("record.expires", {{"day", dayText(context, found->second)}}));
        } else {
            add(found->second);
        }
    }
    return text;
}

}  // namespace words
