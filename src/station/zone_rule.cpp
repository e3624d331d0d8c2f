// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading and applying the rule of a zone; see zone_rule.h.
#include "station/zone_rule.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace station {

namespace {

// Takes parts off the front of a text; a part that is not there makes the whole no rule.
class Reader {
public:
    explicit Reader(std::string_view text) : m_rest(text) {}

    [[nodiscard]] bool isEmpty() const { return m_rest.empty(); }
    [[nodiscard]] bool sound() const { return m_sound; }

    bool take(char letter) {
        if (!m_rest.starts_with(letter)) {
            return false;
        }
        m_rest.remove_prefix(1);
        return true;
    }

    void want(char letter) { m_sound = take(letter) && m_sound; }

    int number() {
        int value = 0;
        std::size_t count = 0;
        while (count < m_rest.size() && count < 3 &&
               std::isdigit(static_cast<unsigned char>(m_rest[count])) != 0) {
            value = value * 10 + (m_rest[count++] - '0');
        }
        m_rest.remove_prefix(count);
        m_sound = m_sound && count > 0;
        return value;
    }

    // "CST" or "<+0330>".
    std::string name() {
        const bool quoted = take('<');
        std::string name;
        while (!m_rest.empty() && (quoted ? m_rest.front() != '>'
                                          : std::isalpha(static_cast<unsigned char>(
                                                m_rest.front())) != 0)) {
            name += m_rest.front();
            m_rest.remove_prefix(1);
        }
        if (quoted) {
            want('>');
        }
        m_sound = m_sound && name.size() >= 3;
        return name;
    }

    // "[+-]h[:m[:s]]"
    logbook::Duration time() {
        const bool negative = take('-');
        if (!negative) {
            take('+');
        }
        std::int64_t seconds = number() * 3600LL;
        if (take(':')) {
            seconds += number() * 60LL;
        }
        if (take(':')) {
            seconds += number();
        }
        return {(negative ? -seconds : seconds) * 1000};
    }

    ZoneChange change() {
        want(',');
        want('M');
        ZoneChange change;
        change.month = number();
        want('.');
        change.week = number();
        want('.');
        change.weekday = number();
        if (take('/')) {
            change.time = time();
        }
        m_sound = m_sound && change.month >= 1 && change.month <= 12 && change.week >= 1 &&
                  change.week <= 5 && change.weekday <= 6;
        return change;
    }

    [[nodiscard]] bool startsWith(char letter) const { return m_rest.starts_with(letter); }

private:
    std::string_view m_rest;
    bool m_sound = true;
};

logbook::Instant instantOf(const ZoneChange& change, int year, logbook::Duration offset) {
    using namespace std::chrono;
    const auto month = std::chrono::year{year} / std::chrono::month{
                                                     static_cast<unsigned>(change.month)};
    const weekday day{static_cast<unsigned>(change.weekday)};
    const auto date = change.week == 5
                          ? sys_days{month / day[last]}
                          : sys_days{month / day[static_cast<unsigned>(change.week)]};
    const auto midnight = milliseconds{date.time_since_epoch()}.count();
    return logbook::Instant{midnight} + change.time - offset;
}

// "America", of America/Chicago; "GMT+5", of Etc/GMT+5.
bool isNamePart(std::string_view part) {
    const auto isLetter = [](char each) {
        return std::isalpha(static_cast<unsigned char>(each)) != 0;
    };
    return !part.empty() && isLetter(part.front()) && std::ranges::all_of(part, [&](char each) {
        return isLetter(each) || (each >= '0' && each <= '9') || each == '_' || each == '-' ||
               each == '+';
    });
}

}  // namespace

bool mayNameZone(std::string_view name) {
    constexpr std::array<std::string_view, 5> others{"localtime", "posixrules", "Factory", "right",
                                                     "posix"};
    if (std::ranges::find(others, name.substr(0, name.find('/'))) != others.end()) {
        return false;
    }
    while (name.find('/') != std::string_view::npos) {
        const auto end = name.find('/');
        if (!isNamePart(name.substr(0, end))) {
            return false;
        }
        name.remove_prefix(end + 1);
    }
    return isNamePart(name);
}

std::optional<ZoneRule> parseZoneRule(std::string_view text) {
    Reader reader(text);
    ZoneRule rule;
    rule.standard.abbreviation = reader.name();
    rule.standard.offset = {-reader.time().ms};  // the text counts westward
    if (reader.isEmpty()) {
        return std::nullopt;
    }
    rule.summer.abbreviation = reader.name();
    rule.summer.offset = {rule.standard.offset.ms + 3'600'000};
    if (!reader.startsWith(',')) {
        rule.summer.offset = {-reader.time().ms};
    }
    rule.begin = reader.change();
    rule.end = reader.change();
    if (!reader.sound() || !reader.isEmpty()) {
        return std::nullopt;
    }
    return rule;
}

std::vector<rules::ZoneTransition> transitionsOf(const ZoneRule& rule, int firstYear,
                                                 int lastYear) {
    std::vector<rules::ZoneTransition> transitions;
    for (int year = firstYear; year <= lastYear; ++year) {
        transitions.push_back({instantOf(rule.begin, year, rule.standard.offset),
                               rule.summer.offset, rule.summer.abbreviation});
        transitions.push_back({instantOf(rule.end, year, rule.summer.offset),
                               rule.standard.offset, rule.standard.abbreviation});
    }
    std::ranges::sort(transitions, {}, [](const auto& each) { return each.from; });
    return transitions;
}

}  // namespace station
