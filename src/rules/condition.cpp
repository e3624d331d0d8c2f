// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of events, and which event a pattern names. Asks nothing of a device's state.
#include "rules/condition.h"

#include "logbook/text.h"

#include <algorithm>
#include <array>

namespace rules {

namespace {

struct EventWord {
    EventKind kind;
    std::string_view word;
};

constexpr std::array eventWords{
    EventWord{EventKind::Fit, "fit"},
    EventWord{EventKind::Remove, "remove"},
    EventWord{EventKind::Change, "change"},
    EventWord{EventKind::Reprocess, "reprocess"},
    EventWord{EventKind::Group, "group"},
    EventWord{EventKind::PowerOn, "power_on"},
    EventWord{EventKind::PowerOff, "power_off"},
    EventWord{EventKind::UseStart, "use_start"},
    EventWord{EventKind::UsePause, "use_pause"},
    EventWord{EventKind::UseResume, "use_resume"},
    EventWord{EventKind::UseEnd, "use_end"},
    EventWord{EventKind::Soil, "soil"},
    EventWord{EventKind::Alarm, "alarm"},
    EventWord{EventKind::Fault, "fault"},
    EventWord{EventKind::Clear, "clear"},
    EventWord{EventKind::Service, "service"},
    EventWord{EventKind::Release, "release"},
    EventWord{EventKind::Move, "move"},
    EventWord{EventKind::Software, "software"},
};

static_assert(eventWords.size() == eventKinds);

std::optional<EventKind> kindOfWord(std::string_view word) {
    const auto found = std::ranges::find(eventWords, word, &EventWord::word);
    return found == eventWords.end() ? std::nullopt : std::optional(found->kind);
}

std::string_view wordOf(EventKind kind) {
    return std::ranges::find(eventWords, kind, &EventWord::kind)->word;
}

}  // namespace

bool ofPosition(EventKind kind) {
    return kind == EventKind::Fit || kind == EventKind::Remove || kind == EventKind::Change ||
           kind == EventKind::Reprocess;
}

bool takesSubject(EventKind kind) {
    return ofPosition(kind) || kind == EventKind::Alarm || kind == EventKind::Fault ||
           kind == EventKind::Clear || kind == EventKind::Service || kind == EventKind::Release;
}

std::optional<Event> parseEvent(std::string_view text) {
    const auto blank = text.find(' ');
    const auto kind = kindOfWord(text.substr(0, blank));
    if (!kind || takesSubject(*kind) != (blank != std::string_view::npos)) {
        return std::nullopt;
    }
    if (!takesSubject(*kind)) {
        return Event{*kind, ""};
    }
    const auto subject = text.substr(blank + 1);
    if (subject != "*" && !logbook::isKey(subject)) {
        return std::nullopt;
    }
    return Event{*kind, std::string(subject)};
}

std::string toText(const Event& event) {
    std::string text(wordOf(event.kind));
    if (!event.subject.empty()) {
        text += ' ';
        text += event.subject;
    }
    return text;
}

bool matches(const Event& pattern, const Event& happened) {
    const bool kindMatches =
        pattern.kind == happened.kind ||
        (pattern.kind == EventKind::Change &&
         (happened.kind == EventKind::Fit || happened.kind == EventKind::Remove));
    return kindMatches && (pattern.subject == "*" || pattern.subject == happened.subject);
}

}  // namespace rules
