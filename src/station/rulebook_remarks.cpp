// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Remarks by labels; see rulebook_remarks.h.
#include "station/rulebook_remarks.h"

#include "station/problem.h"

namespace station {

namespace {

std::vector<std::string> partsOf(const std::string& path) {
    std::vector<std::string> parts{""};
    for (const char letter : path) {
        if (letter == '.') {
            parts.emplace_back();
        } else {
            parts.back() += letter;
        }
    }
    return parts;
}

// What "checks.leak.takes" is about; null where that is nothing with a label.
const rules::Named* namedAt(const rules::Rulebook& rulebook, const std::string& section,
                            const std::string& key) {
    if (section == "groups") return rulebook.group(key);
    if (section == "positions") return rulebook.position(key);
    if (section == "checks") return rulebook.check(key);
    if (section == "services") return rulebook.service(key);
    if (section == "holds") return rulebook.hold(key);
    if (section == "faults") return rulebook.fault(key);
    if (section == "choices") return rulebook.choice(key);
    if (section == "conflicts") return rulebook.conflict(key);
    return nullptr;
}

std::string subjectOf(const words::Words& words, const rules::Rulebook& rulebook,
                      const std::string& path) {
    const auto parts = partsOf(path);
    if (parts.size() < 2) return "";
    const auto* named = namedAt(rulebook, parts[0], parts[1]);
    if (named != nullptr) return words.label(named->label, named->key);
    return words::capitalized(words::readable(parts[1]));
}

}  // namespace

std::vector<std::string> remarksInWords(const words::Words& words, const rules::Rulebook& rulebook,
                                        const std::vector<rules::RulebookRemark>& remarks) {
    std::vector<std::string> lines;
    for (const auto& remark : remarks) {
        auto told = remark;
        if (const auto* group = rulebook.group(remark.detail))
            told.detail = words.label(group->label, group->key);
        const auto sentence = remarkSentence(words, told).text();
        const auto subject = subjectOf(words, rulebook, remark.path);
        const auto line = subject.empty() ? sentence : subject + ": " + sentence;
        lines.push_back(remark.line == 0 ? line
                                         : words.say("rulebook.place.after",
                                                     {{"remark", line},
                                                      {"line", std::to_string(remark.line)},
                                                      {"column", std::to_string(remark.column)}}));
    }
    return lines;
}

}  // namespace station
