// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Names of records, the words of their enumerations, and the order in which they are read.
#include "logbook/record.h"

#include "logbook/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <tuple>

namespace logbook {

static_assert(std::variant_size_v<Body> == kindCount);

namespace {

template <std::size_t count>
using Words = std::array<std::string_view, count>;

// Each in the order of its enumeration.
constexpr Words<6> outcomes{"pass", "fail", "incomplete", "in_use", "not_located", "deferred"};
constexpr Words<4> reuses{"single_use", "single_patient", "reusable", "permanent"};
constexpr Words<3> levels{"low", "high", "sterile"};
constexpr Words<3> noticeActions{"stop_use", "inspect", "information"};

template <class Enumeration, std::size_t count>
std::string_view wordOf(const Words<count>& words, Enumeration value) {
    return words.at(static_cast<std::size_t>(value));
}

template <class Enumeration, std::size_t count>
std::optional<Enumeration> valueOf(const Words<count>& words, std::string_view text) {
    const auto found = std::find(words.begin(), words.end(), text);
    if (found == words.end()) {
        return std::nullopt;
    }
    return static_cast<Enumeration>(found - words.begin());
}

}  // namespace

std::string toText(const RecordName& name) {
    return name.station + '/' + std::to_string(name.seq);
}

std::optional<RecordName> parseRecordName(std::string_view text) {
    const auto slash = text.find('/');
    if (slash == std::string_view::npos || !isStationName(text.substr(0, slash))) {
        return std::nullopt;
    }
    const std::string_view number = text.substr(slash + 1);
    std::int64_t seq = 0;
    const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), seq);
    if (error != std::errc() || end != number.data() + number.size() || number.front() == '0' ||
        seq < 1 || seq > largestSeq) {
        return std::nullopt;
    }
    return RecordName{std::string(text.substr(0, slash)), seq};
}

std::string_view name(Outcome outcome) {
    return wordOf(outcomes, outcome);
}
std::string_view name(Reuse reuse) {
    return wordOf(reuses, reuse);
}
std::string_view name(Level level) {
    return wordOf(levels, level);
}
std::string_view name(NoticeAction action) {
    return wordOf(noticeActions, action);
}

std::optional<Outcome> outcomeOf(std::string_view text) {
    return valueOf<Outcome>(outcomes, text);
}
std::optional<Reuse> reuseOf(std::string_view text) {
    return valueOf<Reuse>(reuses, text);
}
std::optional<Level> levelOf(std::string_view text) {
    return valueOf<Level>(levels, text);
}
std::optional<NoticeAction> noticeActionOf(std::string_view text) {
    return valueOf<NoticeAction>(noticeActions, text);
}

std::strong_ordering readingOrder(const Record& a, const Record& b) {
    return std::tie(a.at, a.entered, a.name) <=> std::tie(b.at, b.entered, b.name);
}

}  // namespace logbook
