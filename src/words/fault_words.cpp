// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Sentences for faults and trouble, looked up by the word of the code.
#include "words/fault_words.h"

#include "words/keys.h"
#include "words/record_words.h"

namespace words {

namespace {

std::string_view codeWord(logbook::RecordFault::Code code) {
    using Code = logbook::RecordFault::Code;
    switch (code) {
        case Code::NotJson: return "not_json";
        case Code::NotAnObject: return "not_an_object";
        case Code::DuplicateName: return "duplicate_name";
        case Code::BadText: return "bad_text";
        case Code::BadNumber: return "bad_number";
        case Code::TooDeep: return "too_deep";
        case Code::TooLong: return "too_long";
        case Code::Missing: return "missing";
        case Code::WrongType: return "wrong_type";
        case Code::BadStation: return "bad_station";
        case Code::BadSeq: return "bad_seq";
        case Code::BadInstant: return "bad_instant";
        case Code::BadDay: return "bad_day";
        case Code::BadKey: return "bad_key";
        case Code::BadName: return "bad_name";
        case Code::BadRecordName: return "bad_record_name";
        case Code::BadUnit: return "bad_unit";
        case Code::BadWord: return "bad_word";
        case Code::UnknownKind: return "unknown_kind";
        case Code::EnteredBeforeAt: return "entered_before_at";
        case Code::NotTimely: return "not_timely";
        case Code::DeviceWanted: return "device_wanted";
        case Code::DeviceUnwanted: return "device_unwanted";
        case Code::NoParts: break;
    }
    return "no_parts";
}

std::string_view codeWord(rules::RulebookRemark::Code code) {
    using Code = rules::RulebookRemark::Code;
    switch (code) {
        case Code::NotToml: return "not_toml";
        case Code::NotUtf8: return "not_utf8";
        case Code::TooLong: return "too_long";
        case Code::Missing: return "missing";
        case Code::UnknownField: return "unknown_field";
        case Code::WrongType: return "wrong_type";
        case Code::BadKey: return "bad_key";
        case Code::BadWord: return "bad_word";
        case Code::BadFormat: return "bad_format";
        case Code::BadDuration: return "bad_duration";
        case Code::BadInterval: return "bad_interval";
        case Code::BadGrace: return "bad_grace";
        case Code::BadNumber: return "bad_number";
        case Code::BadUnit: return "bad_unit";
        case Code::BadZone: return "bad_zone";
        case Code::BadEvent: return "bad_event";
        case Code::BadPath: return "bad_path";
        case Code::BadOnly: return "bad_only";
        case Code::UnknownPosition: return "unknown_position";
        case Code::UnknownCheck: return "unknown_check";
        case Code::UnknownGroup: return "unknown_group";
        case Code::UnknownService: return "unknown_service";
        case Code::UnknownMeasure: return "unknown_measure";
        case Code::NoGroup: return "no_group";
        case Code::Cycle: return "cycle";
        case Code::AttendedOverTakes: return "attended_over_takes";
        case Code::KeyTaken: return "key_taken";
        case Code::ReservedPosition: return "reserved_position";
        case Code::MinOverMax: return "min_over_max";
        case Code::LimitLacksGroup: return "limit_lacks_group";
        case Code::OnlyWithoutFit: return "only_without_fit";
        case Code::BadAuthority: return "bad_authority";
        case Code::TooLarge: return "too_large";
        case Code::TooMany: return "too_many";
        case Code::NotVoidedByUseEnd: return "not_voided_by_use_end";
        case Code::NotVoidedByRepair: return "not_voided_by_repair";
        case Code::LongValidity: return "long_validity";
        case Code::MatchWithoutReuse: return "match_without_reuse";
        case Code::LeakDuringUse: return "leak_during_use";
        case Code::GroupWithoutCheck: return "group_without_check";
        case Code::NoAcceptance: return "no_acceptance";
        case Code::NoAuthority: return "no_authority";
        case Code::LimitLeavesOutGroup: return "limit_leaves_out_group";
        case Code::NoLimit: return "no_limit";
        case Code::RoleWithoutLabel: return "role_without_label";
        case Code::ConditionWithoutLabel: break;
    }
    return "condition_without_label";
}

std::string quotedField(const Words& words, const std::string& field) {
    return field.empty() ? words.say("plain.whole_record") : "\"" + field + "\"";
}

// Every gap of the sentences of a key that is not given reads "unknown"; a cause, that nobody told
// it.
Gaps filled(const Words& words, const std::string& key, Gaps gaps) {
    for (const auto* part : {".says", ".safe", ".do"}) {
        const auto wanted = sentenceKeys().find(key + part);
        if (wanted == sentenceKeys().end()) continue;
        for (const auto& gap : wanted->second)
            if (gaps[gap].empty())
                gaps[gap] = words.say(gap == "detail" ? "plain.no_reason" : "plain.unknown");
    }
    return gaps;
}

std::string place(const Words& words, const rules::RulebookRemark& remark) {
    const auto path = remark.path.empty() ? words.say("plain.whole_file") : remark.path;
    if (remark.line == 0) return words.say("rulebook.place.unknown", {{"path", path}});
    return words.say("rulebook.place.known", {{"line", std::to_string(remark.line)},
                                              {"column", std::to_string(remark.column)},
                                              {"path", path}});
}

}  // namespace

Sentence recordFault(const Words& words, const logbook::RecordFault& fault) {
    return words.sentence("record_fault." + std::string(codeWord(fault.code)),
                          {{"field", quotedField(words, fault.field)},
                           {"detail", fault.detail},
                           {"offset", std::to_string(fault.offset)}});
}

Sentence rulebookRemark(const Words& words, const rules::RulebookRemark& remark) {
    using Code = rules::RulebookRemark::Code;
    std::string key = "rulebook." + std::string(codeWord(remark.code));
    if (remark.code == Code::MinOverMax && !remark.detail.empty()) key += "_group";
    Gaps gaps{{"detail", remark.detail}, {"act", remark.detail}};
    if (const auto kind = logbook::kindOf(remark.detail)) gaps["act"] = actWords(words, *kind);
    auto said = words.sentence(key, gaps);
    said.says = place(words, remark) + " " + said.says;
    return said;
}

Notice logFault(const Words& words, const rules::LogFault& fault) {
    const Gaps gaps{{"record", logbook::toText(fault.record)}};
    switch (fault.code) {
        case rules::LogFault::Code::NoEdition: return trouble(words, "no_edition", gaps);
        case rules::LogFault::Code::BadRulebook: return trouble(words, "bad_rulebook", gaps);
        case rules::LogFault::Code::WrongEdition: break;
    }
    return trouble(words, "wrong_edition", gaps);
}

Notice trouble(const Words& words, std::string_view code, const Gaps& gaps) {
    std::string key = "trouble." + std::string(code);
    Gaps given = gaps;
    const bool holderKnown = gaps.contains("person") && !gaps.find("person")->second.empty();
    if (code == "busy" && !holderKnown) key = "trouble.busy_unknown";
    if (!words.has(key + ".says")) {
        key = "trouble.other";
        if (given["detail"].empty()) given["detail"] = readable(code);
    }
    const auto full = filled(words, key, std::move(given));
    return {words.say(key + ".says", full), words.say(key + ".safe", full),
            words.say(key + ".do", full)};
}

Sentence chainBreak(const Words& words, std::string_view reason, const Gaps& gaps) {
    std::string key = "break." + std::string(reason);
    Gaps given = gaps;
    // In a note of verify there is no room for it.
    if (reason == "unreadable" && given["detail"].empty()) key = "break.unread";
    if (!words.has(key + ".says")) {
        key = "break.other";
        if (given["detail"].empty()) given["detail"] = readable(reason);
    }
    return words.sentence(key, filled(words, key, std::move(given)));
}

}  // namespace words
