// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Roles with the persons who hold them; see lifters.h.
#include "words/lifters.h"

#include "rules/authority.h"

#include <array>

namespace words {

namespace {

using logbook::Kind;

struct Lift {
    std::string_view blocker;
    Kind kind;  // of the record that lifts it
};

constexpr std::array<Lift, 14> lifts{{{"withdrawn", Kind::Release},
                                      {"fault", Kind::Clear},
                                      {"notice", Kind::NoticeDone},
                                      {"service_failed", Kind::Service},
                                      {"service_outstanding", Kind::Service},
                                      {"service_overdue", Kind::Service},
                                      {"group_unset", Kind::Group},
                                      {"group_unsupported", Kind::Enrol},
                                      {"conflict", Kind::Remove},
                                      {"in_use", Kind::UseEnd},
                                      {"retired", Kind::Enrol},
                                      {"closing_fit", Kind::Adopt},
                                      {"order", Kind::Adopt},
                                      {"unprocessed", Kind::Reprocess}}};

// More names than that are no help.
constexpr std::size_t mostNamed = 4;

std::string holdersOf(const Context& context, const std::string& role) {
    std::vector<std::string> names;
    std::size_t more = 0;
    for (const auto& [key, person] : context.state.persons) {
        if (!rules::holdsRole(context.state, key, {role}, context.asked)) continue;
        if (names.size() < mostNamed) {
            names.push_back(personName(context, key));
        } else {
            ++more;
        }
    }
    const auto& words = context.words;
    if (names.empty()) return words.say("lifters.no_holder");
    if (more == 0) return words.anyOf(names);
    std::string text = names.front();
    for (std::size_t index = 1; index < names.size(); ++index)
        text = words.say("list.comma", {{"before", text}, {"next", names[index]}});
    return words.say("list.more", {{"before", text}, {"count", std::to_string(more)}});
}

}  // namespace

std::string lifters(const Context& context, std::string_view blocker) {
    const auto blank = blocker.find(' ');
    const auto word = blocker.substr(0, blank);
    const auto subject =
        blank == std::string_view::npos ? std::string_view() : blocker.substr(blank + 1);
    const auto& words = context.words;
    for (const auto& lift : lifts) {
        if (lift.blocker != word) continue;
        const bool hold = lift.kind == Kind::Release;
        const auto roles = rolesFor(context, lift.kind, hold ? subject : std::string_view());
        if (roles.empty()) return words.say("lifters.anyone");
        std::vector<std::string> told;
        for (const auto& role : roles)
            told.push_back(words.say("lifters.role", {{"role", roleLabel(context, role)},
                                                      {"persons", holdersOf(context, role)}}));
        return words.say("lifters.roles", {{"roles", words.anyOf(told)}});
    }
    return "";
}

}  // namespace words
