// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Labels of keys, by the edition in force. Knows no finding.
#include "words/context.h"

#include "rules/authority.h"
#include "words/shown.h"

namespace words {

namespace {

std::string labelOf(const Context& context, const rules::Named* named, std::string_view key) {
    return named ? context.words.label(named->label, key) : readable(key);
}

using Labels = std::map<std::string, rules::Localized, std::less<>>;

std::string labelOf(const Context& context, const Labels& labels, std::string_view key) {
    const auto found = labels.find(key);
    return found == labels.end() ? readable(key) : context.words.label(found->second, key);
}

// The names of those who hold it, empty if nobody does.
std::string holdersOf(const Context& context, const std::string& role) {
    constexpr std::size_t mostNamed = 4;  // more are no help
    std::vector<std::string> names;
    std::size_t more = 0;
    for (const auto& [key, known] : context.state.persons) {
        if (!rules::holdsRole(context.state, key, {role}, context.asked)) continue;
        if (names.size() < mostNamed) {
            names.push_back(personName(context, key));
        } else {
            ++more;
        }
    }
    if (more == 0) return context.words.anyOf(names);
    std::string before = names.front();
    for (std::size_t index = 1; index < names.size(); ++index) {
        before = context.words.say("list.comma", {{"before", before}, {"next", names[index]}});
    }
    return context.words.say("list.more", {{"before", before}, {"count", std::to_string(more)}});
}

}  // namespace

Times Context::times() const {
    return {words, *state.rulebook->zone, asked};
}

const logbook::Record* Context::record(const logbook::RecordName& name) const {
    return lookup ? lookup(name) : nullptr;
}

const logbook::Record* Context::confirmation(const logbook::RecordName& entry) const {
    return confirmations ? confirmations(entry) : nullptr;
}

const rules::FittedPart* Context::fitted(std::string_view position) const {
    if (!device) return nullptr;
    const auto found = device->fitted.find(position);
    return found == device->fitted.end() ? nullptr : &found->second;
}

std::string groupLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->group(key), key);
}

std::string positionLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->position(key), key);
}

std::string checkLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->check(key), key);
}

std::string serviceLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->service(key), key);
}

std::string holdLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->hold(key), key);
}

std::string faultLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->fault(key), key);
}

std::string conflictLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->conflict(key), key);
}

std::string choiceLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->choice(key), key);
}

std::string alarmLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->alarmLabels, key);
}

std::string conditionLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->conditionLabels, key);
}

std::string roleLabel(const Context& context, std::string_view key) {
    return labelOf(context, context.state.rulebook->roleLabels, key);
}

std::string measureLabel(const Context& context, std::string_view check, std::string_view key) {
    const auto* rule = context.state.rulebook->check(check);
    return labelOf(context, rule ? rules::findMeasure(*rule, key) : nullptr, key);
}

std::string subjectLabel(const Context& context, const rules::Finding& finding) {
    using Code = rules::FindingCode;
    const auto& key = finding.subject;
    switch (finding.code) {
        case Code::Withdrawn: return holdLabel(context, key);
        case Code::Fault: return faultLabel(context, key);
        case Code::Notice: return readable(key);
        case Code::GroupDiffers:
        case Code::GroupUnsupported: return groupLabel(context, key);
        case Code::ServiceDue:
        case Code::ServiceFailed:
        case Code::ServiceOutstanding:
        case Code::ServiceOverdue: return serviceLabel(context, key);
        case Code::Due:
        case Code::Failed:
        case Code::Lapsed: return checkLabel(context, key);
        case Code::Conflict:
            return context.state.rulebook->choice(key) ? choiceLabel(context, key)
                                                       : conflictLabel(context, key);
        case Code::Missing:
            return context.state.rulebook->choice(key) ? choiceLabel(context, key)
                                                       : positionLabel(context, key);
        case Code::ChangeDue:
        case Code::Expired:
        case Code::Mismatch:
        case Code::Spent:
        case Code::Unprocessed:
        case Code::WornOut: return positionLabel(context, key);
        case Code::GroupUnset:
        case Code::Unseen: break;
    }
    return "";
}

std::string roleList(const Context& context, const std::vector<std::string>& roles) {
    std::vector<std::string> labels;
    for (const auto& role : roles) labels.push_back(roleLabel(context, role));
    return context.words.anyOf(labels);
}

std::string rolesWithPeople(const Context& context, const std::vector<std::string>& roles) {
    std::vector<std::string> labels;
    for (const auto& role : roles) {
        const Gaps gaps{{"role", roleLabel(context, role)}, {"people", holdersOf(context, role)}};
        labels.push_back(context.words.say(
            gaps.at("people").empty() ? "list.role_of_nobody" : "list.role", gaps));
    }
    return context.words.anyOf(labels);
}

std::vector<std::string> rolesFor(const Context& context, logbook::Kind kind,
                                  std::string_view hold) {
    const auto& rulebook = *context.state.rulebook;
    const auto* rule = rulebook.hold(hold);
    if (rule && rule->releaseBy) return *rule->releaseBy;
    const auto found = rulebook.authority.find(kind);
    return found == rulebook.authority.end() ? std::vector<std::string>{} : found->second;
}

std::string personName(const Context& context, std::string_view person) {
    const auto found = context.state.persons.find(person);
    if (found == context.state.persons.end() || found->second.person.name.empty())
        return shown(person);
    return shown(found->second.person.name);
}

std::string adviceOf(const Context& context, const rules::Named* named) {
    if (!named || named->advice.empty()) return "";
    return context.words.label(named->advice, "");
}

std::string verdictWord(const Words& words, rules::Verdict verdict) {
    switch (verdict) {
        case rules::Verdict::Ready: return words.say("verdict.ready");
        case rules::Verdict::NotReady: return words.say("verdict.not_ready");
        case rules::Verdict::InUse: return words.say("verdict.in_use");
        case rules::Verdict::Withdrawn: return words.say("verdict.withdrawn");
        case rules::Verdict::Retired: break;
    }
    return words.say("verdict.retired");
}

std::string statusWord(const Words& words, rules::CheckStatus status) {
    switch (status) {
        case rules::CheckStatus::Exempt: return words.say("check_status.exempt");
        case rules::CheckStatus::Due: return words.say("check_status.due");
        case rules::CheckStatus::Failed: return words.say("check_status.failed");
        case rules::CheckStatus::Lapsed: return words.say("check_status.lapsed");
        case rules::CheckStatus::Current: break;
    }
    return words.say("check_status.current");
}

}  // namespace words
