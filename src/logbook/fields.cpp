// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The values that fields hold: texts of each sort, lists, flags, numbers, days and instants.
#include "logbook/fields.h"

#include "logbook/text.h"

#include <cmath>

namespace logbook {

using Code = RecordFault::Code;

namespace {

constexpr std::size_t longestDetail = 200;

// Cut between characters, so that it stays UTF-8.
std::string cut(std::string_view text) {
    if (text.size() <= longestDetail) {
        return std::string(text);
    }
    std::size_t length = longestDetail;
    while (length > 0 && (static_cast<unsigned char>(text[length]) & 0xc0) == 0x80) {
        --length;
    }
    return std::string(text.substr(0, length)) + "…";
}

// A text for which `fits` holds, else the fault `code` with the text as its detail.
std::optional<std::string> readFitting(const json::Value& value, const Place& place, Code code,
                                       bool (*fits)(std::string_view)) {
    const std::string* text = wantText(value, place);
    if (text == nullptr) {
        return std::nullopt;
    }
    if (!fits(*text)) {
        place.fault(code, *text);
        return std::nullopt;
    }
    return *text;
}

template <class Read>
std::optional<Read> readParsed(const json::Value& value, const Place& place, Code code,
                               std::optional<Read> (*parse)(std::string_view)) {
    const std::string* text = wantText(value, place);
    if (text == nullptr) {
        return std::nullopt;
    }
    auto parsed = parse(*text);
    if (!parsed) {
        place.fault(code, *text);
    }
    return parsed;
}

}  // namespace

Place Place::member(std::string_view name) const {
    Place place(*m_faults);
    place.m_holder = this;
    place.m_name = name;
    return place;
}

Place Place::element(std::size_t index) const {
    Place place(*m_faults);
    place.m_holder = this;
    place.m_index = index;
    return place;
}

std::string Place::path() const {
    if (m_holder == nullptr) {
        return {};
    }
    const std::string holder = m_holder->path();
    const bool isElement = m_name.data() == nullptr;
    const std::string own = isElement ? std::to_string(m_index) : std::string(m_name);
    return holder.empty() ? own : holder + '.' + own;
}

void Place::fault(Code code, std::string_view detail) const {
    m_faults->push_back({code, cut(path()), cut(detail), 0});
}

const std::string* wantText(const json::Value& value, const Place& place) {
    if (value.string() == nullptr) {
        place.fault(Code::WrongType, "text");
    }
    return value.string();
}

const json::Array* wantList(const json::Value& value, const Place& place) {
    if (value.array() == nullptr) {
        place.fault(Code::WrongType, "list");
    }
    return value.array();
}

const json::Object* wantObject(const json::Value& value, const Place& place) {
    if (value.object() == nullptr) {
        place.fault(Code::WrongType, "object");
    }
    return value.object();
}

std::optional<std::string> readText(const json::Value& value, const Place& place) {
    return readFitting(value, place, Code::BadText, [](std::string_view) { return true; });
}

std::optional<std::string> readName(const json::Value& value, const Place& place) {
    return readFitting(value, place, Code::BadName, isName);
}

std::optional<std::string> readNameOrNothing(const json::Value& value, const Place& place) {
    return readFitting(value, place, Code::BadName,
                       [](std::string_view text) { return text.empty() || isName(text); });
}

std::optional<std::string> readKey(const json::Value& value, const Place& place) {
    return readFitting(value, place, Code::BadKey, isKey);
}

std::optional<std::string> readStation(const json::Value& value, const Place& place) {
    return readFitting(value, place, Code::BadStation, isStationName);
}

std::optional<std::vector<std::string>> readTexts(const json::Value& value, const Place& place) {
    return readList(value, place, readText);
}

std::optional<std::vector<std::string>> readNames(const json::Value& value, const Place& place) {
    return readList(value, place, readName);
}

std::optional<std::vector<std::string>> readKeys(const json::Value& value, const Place& place) {
    return readList(value, place, readKey);
}

std::optional<std::vector<std::string>> readKeySet(const json::Value& value, const Place& place) {
    auto keys = readKeys(value, place);
    if (keys) {
        std::sort(keys->begin(), keys->end());
        keys->erase(std::unique(keys->begin(), keys->end()), keys->end());
    }
    return keys;
}

std::optional<std::int64_t> readSeq(const json::Value& value, const Place& place) {
    const auto number = readNumber(value, place);
    if (!number) {
        return std::nullopt;
    }
    if (*number < 1 || *number > static_cast<double>(largestSeq) ||
        std::trunc(*number) != *number) {
        place.fault(Code::BadSeq, json::canonical(value));
        return std::nullopt;
    }
    return static_cast<std::int64_t>(*number);
}

std::optional<double> readNumber(const json::Value& value, const Place& place) {
    if (value.number() == nullptr) {
        place.fault(Code::WrongType, "number");
        return std::nullopt;
    }
    return *value.number();
}

std::optional<bool> readFlag(const json::Value& value, const Place& place) {
    if (value.boolean() == nullptr) {
        place.fault(Code::WrongType, "true or false");
        return std::nullopt;
    }
    return *value.boolean();
}

std::optional<Instant> readInstant(const json::Value& value, const Place& place) {
    return readParsed<Instant>(value, place, Code::BadInstant, parseInstant);
}

std::optional<Day> readDay(const json::Value& value, const Place& place) {
    return readParsed<Day>(value, place, Code::BadDay, parseDay);
}

std::optional<std::string> readDayText(const json::Value& value, const Place& place) {
    return readFitting(value, place, Code::BadDay,
                       [](std::string_view text) { return parseDay(text).has_value(); });
}

std::optional<std::string> readDayTextOrNothing(const json::Value& value, const Place& place) {
    return readFitting(value, place, Code::BadDay, [](std::string_view text) {
        return text.empty() || parseDay(text).has_value();
    });
}

std::optional<std::string> readMonthText(const json::Value& value, const Place& place) {
    return readFitting(value, place, Code::BadDay, [](std::string_view text) {
        return parseDay(std::string(text) + "-01").has_value();
    });
}

std::optional<RecordName> readRecordName(const json::Value& value, const Place& place) {
    return readParsed<RecordName>(value, place, Code::BadRecordName, parseRecordName);
}

}  // namespace logbook
