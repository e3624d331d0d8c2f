// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which record lifts what, and who may write it; see lifters.h.
#include "words/lifters.h"

#include <array>

namespace words {

namespace {

using logbook::Kind;

struct Lift {
    std::string_view blocker;
    Kind kind;  // of the record that lifts it
};

constexpr std::array<Lift, 11> lifts{{{"withdrawn", Kind::Release},
                                      {"fault", Kind::Clear},
                                      {"notice", Kind::NoticeDone},
                                      {"service_failed", Kind::Service},
                                      {"service_outstanding", Kind::Service},
                                      {"service_overdue", Kind::Service},
                                      {"group_unset", Kind::Group},
                                      {"group_unsupported", Kind::Enrol},
                                      {"conflict", Kind::Remove},
                                      {"order", Kind::Adopt},
                                      {"unprocessed", Kind::Reprocess}}};

// Who may permit it for a time; nothing where anybody may.
std::string permitters(const Context& context) {
    const auto roles = rolesFor(context, Kind::Waive);
    if (roles.empty()) return "";
    return " " + context.words.say("lifters.permit", {{"roles", rolesWithPeople(context, roles)}});
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
        auto told = roles.empty() ? words.say("lifters.anyone")
                                  : words.say("lifters.roles",
                                              {{"roles", rolesWithPeople(context, roles)}});
        if (word == "service_overdue") told += permitters(context);
        return told;
    }
    return "";
}

}  // namespace words
