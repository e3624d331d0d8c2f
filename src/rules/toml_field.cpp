// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Typed values of a TOML text with their places.
#include "rules/toml_field.h"

#include "logbook/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>

namespace rules {

namespace {

constexpr std::size_t mostRemarks = 10'000;

Place placeOf(std::string path, const toml::source_region& region) {
    return {std::move(path), static_cast<int>(region.begin.line),
            static_cast<int>(region.begin.column)};
}

std::string joined(const std::string& path, std::string_view name) {
    return path.empty() ? std::string(name) : path + "." + std::string(name);
}

const toml::node* child(const toml::node& node, const std::string& segment) {
    if (const auto* table = node.as_table()) {
        return table->get(segment);
    }
    const auto* list = node.as_array();
    std::size_t index = 0;
    const char* end = segment.data() + segment.size();
    if (!list || std::from_chars(segment.data(), end, index).ptr != end) {
        return nullptr;
    }
    return list->get(index);
}

}  // namespace

void RemarkList::add(RemarkCode code, const Place& place, std::string detail) {
    if (!isFull()) {
        m_remarks.push_back({code, place.path, place.line, place.column, std::move(detail)});
    }
}

bool RemarkList::isFull() const { return m_remarks.size() >= mostRemarks; }

std::vector<RulebookRemark> RemarkList::sorted() const {
    auto remarks = m_remarks;
    std::ranges::stable_sort(remarks, {}, [](const RulebookRemark& remark) {
        return std::pair(remark.line, remark.column);
    });
    return remarks;
}

Field rootField(const toml::table& root) {
    const Place place{"", 1, 1};
    return {"", &root, place, place};
}

Place placeIn(const toml::table& root, const std::vector<std::string>& path) {
    const toml::node* node = &root;
    Place place{"", 1, 1};
    for (const auto& segment : path) {
        place.path = joined(place.path, segment);
        node = node ? child(*node, segment) : nullptr;
        if (node) {
            place = placeOf(place.path, node->source());
        }
    }
    return place;
}

std::optional<std::string> readText(const Field& field, RemarkList& faults) {
    if (const auto* text = field.node->as_string()) {
        return text->get();
    }
    faults.add(RemarkCode::WrongType, field.place, "text");
    return std::nullopt;
}

std::optional<bool> readFlag(const Field& field, RemarkList& faults) {
    if (const auto* flag = field.node->as_boolean()) {
        return flag->get();
    }
    faults.add(RemarkCode::WrongType, field.place, "true or false");
    return std::nullopt;
}

std::optional<double> readNumber(const Field& field, RemarkList& faults) {
    if (const auto* whole = field.node->as_integer()) {
        return static_cast<double>(whole->get());
    }
    const auto* number = field.node->as_floating_point();
    if (!number) {
        faults.add(RemarkCode::WrongType, field.place, "number");
        return std::nullopt;
    }
    if (!std::isfinite(number->get())) {
        faults.add(RemarkCode::BadNumber, field.place);
        return std::nullopt;
    }
    return number->get();
}

std::optional<int> readCount(const Field& field, RemarkList& faults) {
    const auto* whole = field.node->as_integer();
    if (!whole) {
        faults.add(RemarkCode::WrongType, field.place, "whole number");
        return std::nullopt;
    }
    if (whole->get() < 0 || whole->get() > std::numeric_limits<int>::max()) {
        faults.add(RemarkCode::BadNumber, field.place, std::to_string(whole->get()));
        return std::nullopt;
    }
    return static_cast<int>(whole->get());
}

std::optional<Duration> readDuration(const Field& field, RemarkList& faults) {
    const auto text = readText(field, faults);
    if (!text) {
        return std::nullopt;
    }
    const auto duration = logbook::parseDuration(*text);
    if (!duration) {
        faults.add(RemarkCode::BadDuration, field.place, *text);
    }
    return duration;
}

std::optional<CalendarInterval> readInterval(const Field& field, RemarkList& faults) {
    const auto text = readText(field, faults);
    if (!text) {
        return std::nullopt;
    }
    const auto interval = logbook::parseCalendarInterval(*text);
    if (!interval) {
        faults.add(RemarkCode::BadInterval, field.place, *text);
    }
    return interval;
}

std::optional<std::string> readKey(const Field& field, RemarkList& faults) {
    auto text = readText(field, faults);
    if (text && !logbook::isKey(*text)) {
        faults.add(RemarkCode::BadKey, field.place, *text);
        return std::nullopt;
    }
    return text;
}

std::optional<std::vector<std::string>> readKeys(const Field& field, RemarkList& faults) {
    const auto elements = elementsOf(field, faults);
    if (!elements) {
        return std::nullopt;
    }
    std::vector<std::string> keys;
    for (const auto& element : *elements) {
        if (auto key = readKey(element, faults)) {
            keys.push_back(std::move(*key));
        }
    }
    return keys;
}

void refuseMoreThan(std::size_t most, const Fields& fields, RemarkList& faults) {
    if (fields.size() <= most) {
        return;
    }
    // The members of a table come by name.
    auto inText = fields;
    const auto first = inText.begin() + static_cast<std::ptrdiff_t>(most);
    std::ranges::nth_element(inText, first, {}, [](const Field& field) {
        return std::pair(field.namePlace.line, field.namePlace.column);
    });
    faults.add(RemarkCode::TooMany, first->namePlace, std::to_string(most));
}

std::optional<Fields> elementsOf(const Field& field, RemarkList& faults) {
    const auto* list = field.node->as_array();
    if (!list) {
        faults.add(RemarkCode::WrongType, field.place, "list");
        return std::nullopt;
    }
    Fields elements;
    for (std::size_t index = 0; index < list->size(); ++index) {
        const auto* node = list->get(index);
        auto name = std::to_string(index);
        const auto place = placeOf(joined(field.place.path, name), node->source());
        elements.push_back({std::move(name), node, place, place});
    }
    refuseMoreThan(mostListed, elements, faults);
    return elements;
}

std::optional<Fields> membersOf(const Field& field, RemarkList& faults) {
    const auto* table = field.node->as_table();
    if (!table) {
        faults.add(RemarkCode::WrongType, field.place, "table");
        return std::nullopt;
    }
    Fields members;
    for (const auto& [key, node] : *table) {
        const auto path = joined(field.place.path, key.str());
        members.push_back({std::string(key.str()), &node, placeOf(path, key.source()),
                           placeOf(path, node.source())});
    }
    return members;
}

bool isReservedForLater(std::string_view name) { return name.starts_with("x_"); }

TableReader::TableReader(const Field& field, RemarkList& faults)
    : m_field(field), m_faults(&faults) {
    if (auto members = membersOf(field, faults)) {
        m_isTable = true;
        m_members = std::move(*members);
    }
}

std::optional<Field> TableReader::find(std::string_view name) {
    m_asked.emplace(name);
    const auto found = std::ranges::find(m_members, name, &Field::name);
    return found == m_members.end() ? std::nullopt : std::optional(*found);
}

std::optional<Field> TableReader::require(std::string_view name) {
    auto found = find(name);
    if (!found && m_isTable) {
        Place place = m_field.place;
        place.path = joined(place.path, name);
        m_faults->add(RemarkCode::Missing, place);
    }
    return found;
}

void TableReader::refuseOthers() const {
    for (const auto& member : m_members) {
        if (!m_asked.contains(member.name) && !isReservedForLater(member.name)) {
            m_faults->add(RemarkCode::UnknownField, member.namePlace, member.name);
        }
    }
}

}  // namespace rules
