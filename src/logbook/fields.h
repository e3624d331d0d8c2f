// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Typed reading of the members of a JSON object, each fault noted with the path of its member.
// For the record reader only; knows JSON and values, not the fields of a record.
#pragma once

#include "logbook/record_reader.h"

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace logbook {

// Where a value stands in the record. Cheap to make: the path is put together for a fault only.
// A place refers to the one that holds it, which must live longer.
class Place {
public:
    explicit Place(RecordFaults& faults) : m_faults(&faults) {}
    [[nodiscard]] Place member(std::string_view name) const;
    [[nodiscard]] Place element(std::size_t index) const;

    // A long detail is cut.
    void fault(RecordFault::Code code, std::string_view detail = {}) const;

private:
    [[nodiscard]] std::string path() const;

    const Place* m_holder = nullptr;
    std::string_view m_name;
    std::size_t m_index = 0;
    RecordFaults* m_faults;
};

// What a value is read with: nothing if it is at fault, the fault then being noted at the place.
template <class Read>
using Reader = std::optional<Read>(const json::Value& value, const Place& place);

Reader<std::string> readText, readName, readNameOrNothing, readKey, readStation;
Reader<std::vector<std::string>> readTexts, readNames, readKeys;
Reader<std::vector<std::string>> readKeySet;  // sorted, no twins
Reader<std::int64_t> readSeq;
Reader<double> readNumber;
Reader<bool> readFlag;
Reader<Instant> readInstant;
Reader<Day> readDay;
Reader<std::string> readDayText, readDayTextOrNothing, readMonthText;
Reader<RecordName> readRecordName;

// Null if the value is of another type, that fault being noted.
[[nodiscard]] const std::string* wantText(const json::Value& value, const Place& place);
[[nodiscard]] const json::Array* wantList(const json::Value& value, const Place& place);
[[nodiscard]] const json::Object* wantObject(const json::Value& value, const Place& place);

// One of the words of an enumeration; `name` of each must be its word.
template <class Word>
std::optional<Word> readWord(const json::Value& value, const Place& place,
                             std::initializer_list<Word> words) {
    const std::string* text = wantText(value, place);
    if (text == nullptr) {
        return std::nullopt;
    }
    std::string allowed;
    for (const Word word : words) {
        if (name(word) == *text) {
            return word;
        }
        allowed.append(allowed.empty() ? "" : ", ").append(name(word));
    }
    place.fault(RecordFault::Code::BadWord, allowed);
    return std::nullopt;
}

// The elements of a list that can be read; nothing if one of them cannot.
template <class Element>
std::optional<std::vector<Element>> readList(const json::Value& value, const Place& place,
                                             Reader<Element>& read) {
    const json::Array* list = wantList(value, place);
    if (list == nullptr) {
        return std::nullopt;
    }
    std::vector<Element> elements;
    for (std::size_t index = 0; index < list->size(); ++index) {
        if (auto element = read((*list)[index], place.element(index))) {
            elements.push_back(std::move(*element));
        }
    }
    if (elements.size() != list->size()) {
        return std::nullopt;
    }
    return elements;
}

// The members of one object. A null member counts as absent.
class Fields {
public:
    // `object` and `place` must live longer than this.
    Fields(const json::Value& object, const Place& place) : m_object(object), m_place(place) {}

    // Nothing if the member is missing or at fault, which is then noted.
    template <class Read>
    [[nodiscard]] std::optional<Read> wanted(std::string_view name, Reader<Read>& read) const {
        if (find(name) == nullptr) {
            m_place.member(name).fault(RecordFault::Code::Missing);
        }
        return optional(name, read);
    }

    // The same, but a value made from nothing instead of none.
    template <class Read>
    [[nodiscard]] Read required(std::string_view name, Reader<Read>& read) const {
        return wanted(name, read).value_or(Read{});
    }

    template <class Read>
    [[nodiscard]] std::optional<Read> optional(std::string_view name, Reader<Read>& read) const {
        const json::Value* value = find(name);
        return value == nullptr ? std::nullopt : read(*value, m_place.member(name));
    }

    [[nodiscard]] const json::Value* find(std::string_view name) const {
        const json::Value* value = m_object.find(name);
        return value == nullptr || value->isNull() ? nullptr : value;
    }
    [[nodiscard]] const Place& place() const { return m_place; }

private:
    const json::Value& m_object;
    const Place& m_place;
};

}  // namespace logbook
