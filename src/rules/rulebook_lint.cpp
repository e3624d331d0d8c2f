// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Warnings about a rulebook.
#include "rules/rulebook_lint.h"

#include "rules/rulebook_limits.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace rules {

namespace {

using logbook::Kind;

using Names = std::vector<std::string>;

constexpr Duration longValidity{30LL * 86'400'000};

struct Lint {
    const Rulebook& rulebook;
    const toml::table& root;
    RemarkList& warnings;

    void add(RemarkCode code, const std::vector<std::string>& path, std::string detail = {}) const {
        warnings.add(code, placeIn(root, path), std::move(detail));
    }
};

bool saysLeak(std::string text) {
    std::ranges::transform(text, text.begin(), [](unsigned char letter) {
        return static_cast<char>(std::tolower(letter));
    });
    return text.find("leak") != std::string::npos;
}

bool isCalledLeak(const Check& check) {
    return saysLeak(check.key) || std::ranges::any_of(check.label, [](const auto& label) {
        return saysLeak(label.second);
    });
}

bool isVoidedBy(const Check& check, std::initializer_list<EventKind> kinds) {
    return std::ranges::any_of(check.voidedBy, [&](const VoidedBy& entry) {
        return std::ranges::find(kinds, entry.event.kind) != kinds.end();
    });
}

void warnOfLimits(const Lint& lint, const Check& check, const NamesGiven& names) {
    for (const auto& measure : check.measures) {
        if (measure.required && !measure.min && !measure.max) {
            lint.add(RemarkCode::NoLimit, {"checks", check.key, "measures", measure.key});
        }
        if (measure.required || lint.warnings.isFull()) {
            continue;  // of a required measure that is a fault
        }
        for (const auto& [name, limit] :
             {std::pair("min", measure.min), std::pair("max", measure.max)}) {
            const auto left = limit ? groupsLeftOut(*limit, check.appliesWhen, names.groups)
                                    : std::vector<std::string>{};
            for (const auto& group : left) {
                lint.add(RemarkCode::LimitLeavesOutGroup,
                         {"checks", check.key, "measures", measure.key, name}, group);
            }
        }
    }
}

void warnOfCheck(const Lint& lint, const Check& check) {
    if (check.blocks != Blocks::No && !isVoidedBy(check, {EventKind::UseEnd})) {
        lint.add(RemarkCode::NotVoidedByUseEnd, {"checks", check.key});
    }
    if (!isVoidedBy(check, {EventKind::Clear, EventKind::Release, EventKind::Service,
                            EventKind::Software})) {
        lint.add(RemarkCode::NotVoidedByRepair, {"checks", check.key});
    }
    if (check.validFor && *check.validFor > longValidity) {
        lint.add(RemarkCode::LongValidity, {"checks", check.key, "valid_for"});
    }
    if (check.duringUse && isCalledLeak(check)) {
        lint.add(RemarkCode::LeakDuringUse, {"checks", check.key, "during_use"});
    }
}

void warnOfPositions(const Lint& lint) {
    for (const auto& position : lint.rulebook.positions) {
        if (position.matchGroup && !lint.root["positions"][position.key]["reuse"]) {
            lint.add(RemarkCode::MatchWithoutReuse, {"positions", position.key, "match_group"});
        }
    }
}

void warnOfGroups(const Lint& lint) {
    for (const auto& group : lint.rulebook.groups) {
        const bool isGuarded = std::ranges::any_of(lint.rulebook.checks, [&](const Check& check) {
            return check.blocks == Blocks::Yes && allowsGroup(check.appliesWhen, group.key);
        });
        if (!isGuarded) {
            lint.add(RemarkCode::GroupWithoutCheck, {"groups", group.key}, group.key);
        }
    }
}

void warnOfAuthority(const Lint& lint) {
    constexpr std::array guarded{Kind::Adopt,   Kind::Person, Kind::Clear,
                                 Kind::Release, Kind::Waive,  Kind::Strike};
    for (const auto kind : guarded) {
        if (!lint.rulebook.authority.contains(kind)) {
            const std::string name(logbook::kindName(kind));
            lint.add(RemarkCode::NoAuthority, {"authority", name}, name);
        }
    }
}

// A name that stands for itself is often a misspelt one where its like have labels.
void warnOfUnlabelled(const Lint& lint, RemarkCode code, const Names& names,
                      const std::map<std::string, Localized, std::less<>>& labels,
                      const Names& path) {
    for (const auto& name : names) {
        if (!labels.empty() && !labels.contains(name)) {
            lint.add(code, path, name);
        }
    }
}

void warnOfNames(const Lint& lint) {
    const auto& rulebook = lint.rulebook;
    for (const auto& check : rulebook.checks) {
        warnOfUnlabelled(lint, RemarkCode::ConditionWithoutLabel, check.needs,
                         rulebook.conditionLabels, {"checks", check.key, "needs"});
    }
    for (const auto& hold : rulebook.holds) {
        warnOfUnlabelled(lint, RemarkCode::RoleWithoutLabel, hold.releaseBy.value_or(Names{}),
                         rulebook.roleLabels, {"holds", hold.key, "release_by"});
    }
    for (const auto& [kind, roles] : rulebook.authority) {
        warnOfUnlabelled(lint, RemarkCode::RoleWithoutLabel, roles, rulebook.roleLabels,
                         {"authority", std::string(logbook::kindName(kind))});
    }
}

}  // namespace

void warnOf(const Rulebook& rulebook, const toml::table& root, const NamesGiven& names,
            RemarkList& warnings) {
    const Lint lint{rulebook, root, warnings};
    for (const auto& check : rulebook.checks) {
        warnOfCheck(lint, check);
        warnOfLimits(lint, check, names);
    }
    warnOfPositions(lint);
    warnOfGroups(lint);
    if (std::ranges::none_of(rulebook.services, &Service::beforeFirstUse)) {
        lint.add(RemarkCode::NoAcceptance, {"services"});
    }
    warnOfAuthority(lint);
    warnOfNames(lint);
}

}  // namespace rules
