// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keys spelled almost alike; see trace_alike.h.
#include "rules/trace_alike.h"

#include <set>
#include <string_view>

namespace rules {

namespace {

namespace body = logbook::body;

std::string plain(std::string_view key) {
    std::string text;
    for (const char letter : key) {
        if (letter == ' ' || letter == '-' || letter == '_') continue;
        text += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    }
    return text;
}

// As plain() of both, without making either.
bool isAlike(std::string_view one, std::string_view other) {
    const auto skip = [](std::string_view& rest) {
        while (!rest.empty() && (rest[0] == ' ' || rest[0] == '-' || rest[0] == '_')) {
            rest.remove_prefix(1);
        }
        return !rest.empty();
    };
    const auto small = [](char letter) {
        return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    };
    for (;;) {
        const bool more = skip(one);
        if (skip(other) != more) return false;
        if (!more) return true;
        if (small(one[0]) != small(other[0])) return false;
        one.remove_prefix(1);
        other.remove_prefix(1);
    }
}

// The keys that one record states.
std::vector<std::string_view> keysIn(const logbook::Record& record, TraceBy by) {
    std::vector<std::string_view> keys;
    if (const auto* fit = std::get_if<body::Fit>(&record.body)) {
        const auto found = fit->part.attributes.find(by == TraceBy::Lot ? "lot" : "serial");
        const bool asked = by == TraceBy::Lot || by == TraceBy::Serial;
        if (asked && found != fit->part.attributes.end()) keys.push_back(found->second);
    }
    if (const auto* reprocess = std::get_if<body::Reprocess>(&record.body)) {
        if (by == TraceBy::Load && reprocess->load) keys.push_back(*reprocess->load);
        for (const auto& part : reprocess->parts)
            if (by == TraceBy::Serial) keys.push_back(part.serial);
    }
    return keys;
}

}  // namespace

bool isSerialOf(std::string_view serial, const std::string& wanted) {
    return isSerial(serial, wanted) || isAlike(serial, wanted);
}

std::vector<std::string> alikeKeys(const Log& log, const TraceQuestion& question) {
    const auto wanted = plain(question.key);
    std::set<std::string> alike;
    const auto& records = log.records();
    for (std::size_t index = 0; index < records.size(); ++index) {
        if (records[index].at > question.at) break;
        for (const auto key : keysIn(records[index], question.by)) {
            const bool other = key != question.key && !key.empty();
            if (other && log.takesPart(index, question.knownAt) && plain(key) == wanted)
                alike.emplace(key);
        }
    }
    return {alike.begin(), alike.end()};
}

}  // namespace rules
