// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Chooses other names.
#include "conformance_runner/names.h"

#include "logbook/text.h"

#include <algorithm>
#include <array>
#include <random>
#include <set>

namespace conformance {

namespace {

template <std::size_t Count>
bool isOneOf(std::string_view word, const std::array<std::string_view, Count>& words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool isText(NameKind kind) {
    return kind >= NameKind::AttributeValue && kind != NameKind::Station;
}

bool isReserved(NameKind kind, std::string_view name) {
    static constexpr std::array<std::string_view, 5> heads{"feature", "group", "model", "in_use",
                                                           "last_use"};
    switch (kind) {
        case NameKind::Place: return isOneOf(name, heads);
        case NameKind::Condition: return name == "warmed_up";
        case NameKind::Attribute: return isReservedAttribute(name);
        default: return false;
    }
}

bool isRenamed(NameKind kind, std::string_view name) {
    if (isText(kind)) {
        return logbook::isName(name);
    }
    if (kind == NameKind::Station) {
        return logbook::isStationName(name);
    }
    return logbook::isKey(name) && !isReserved(kind, name);
}

// Keys begin with a letter and go on with letters, figures and underscores; station names have no
// underscore; texts are written with capitals too.
std::string randomName(NameKind kind, std::mt19937_64& random) {
    const std::string_view first =
        isText(kind) ? "ABCDEFGHJKLMNPQRSTUVWXYZ" : "abcdefghijklmnopqrstuvwxyz";
    const std::string_view later = isText(kind)                ? "ABCDEFGHabcdefghijkmnp23456789"
                                   : kind == NameKind::Station ? "abcdefghijkmnopqrstuvwxyz0123"
                                                               : "abcdefghijklmnopqrstuvwxyz_01";
    const auto length = std::uniform_int_distribution<std::size_t>(4, 11)(random);
    std::string name;
    while (name.size() < length) {
        const std::string_view letters = name.empty() ? first : later;
        name += letters[std::uniform_int_distribution<std::size_t>(0, letters.size() - 1)(random)];
    }
    return name;
}

}  // namespace

std::string Names::operator()(NameKind kind, const std::string& name) {
    if (!isRenamed(kind, name)) {
        return name;
    }
    std::string& other = m_others[kind][name];
    if (!m_settled) {
        other = name;
    }
    return other;
}

void Names::settle(std::uint64_t seed) {
    std::mt19937_64 random(seed);
    for (auto& [kind, others] : m_others) {
        std::set<std::string> chosen;
        while (chosen.size() < others.size()) {
            std::string name = randomName(kind, random);
            if (!isReserved(kind, name)) {
                chosen.insert(std::move(name));
            }
        }
        auto next = chosen.begin();
        for (auto& [name, other] : others) {
            other = *next++;
        }
    }
    m_settled = true;
}

std::size_t Names::size() const {
    std::size_t sum = 0;
    for (const auto& [kind, others] : m_others) {
        sum += others.size();
    }
    return sum;
}

bool isReservedAttribute(std::string_view name) {
    static constexpr std::array<std::string_view, 7> reserved{
        "serial", "lot", "model", "groups", "reuse", "expires", "fitted"};
    return isOneOf(name, reserved);
}

std::optional<NameKind> kindAfter(std::string_view word) {
    static const std::map<std::string_view, NameKind> kinds{
        // findings and blockers
        {"withdrawn", NameKind::Hold},
        {"fault", NameKind::Fault},
        {"notice", NameKind::Notice},
        {"group_unsupported", NameKind::Group},
        {"group_differs", NameKind::Group},
        {"service_failed", NameKind::Service},
        {"service_outstanding", NameKind::Service},
        {"service_due", NameKind::Service},
        {"service_overdue", NameKind::Service},
        {"missing", NameKind::Place},
        {"conflict", NameKind::Place},
        {"mismatch", NameKind::Place},
        {"expired", NameKind::Place},
        {"change_due", NameKind::Place},
        {"worn_out", NameKind::Place},
        {"spent", NameKind::Place},
        {"unprocessed", NameKind::Place},
        {"closing_fit", NameKind::Place},
        {"due", NameKind::Check},
        {"failed", NameKind::Check},
        {"lapsed", NameKind::Check},
        // tasks
        {"group", NameKind::Group},
        {"fit", NameKind::Place},
        {"remove", NameKind::Place},
        {"reprocess", NameKind::Place},
        {"check", NameKind::Check},
        // events
        {"change", NameKind::Place},
        {"alarm", NameKind::Alarm},
        {"clear", NameKind::Fault},
        {"service", NameKind::Service},
        {"release", NameKind::Hold},
        // reasons
        {"condition", NameKind::Condition},
        {"measure", NameKind::Measure},
        {"measure_missing", NameKind::Measure},
        {"in_line", NameKind::Place},
        {"order", NameKind::Check},
    };
    const auto found = kinds.find(word);
    return found == kinds.end() ? std::nullopt : std::optional(found->second);
}

std::string renamedPhrase(const std::string& phrase, Names& names) {
    const auto blank = phrase.find(' ');
    const auto kind = kindAfter(phrase.substr(0, blank));
    if (blank == std::string::npos || !kind) {
        return phrase;
    }
    return phrase.substr(0, blank + 1) + names(*kind, phrase.substr(blank + 1));
}

}  // namespace conformance
