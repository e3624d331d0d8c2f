// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A map by text that is small and looked into far more often than it grows: its entries lie side by
// side in the order of their keys, so that a look-up touches little memory and a copy is one
// allocation. As std::map, but that whatever is put in or taken out moves the entries: references
// and iterators hold until then.
#pragma once

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <stdexcept>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

namespace logbook {

template <class Value>
class KeyMap {
public:
    using key_type = std::string;
    using mapped_type = Value;
    using value_type = std::pair<std::string, Value>;  // the key is not to be changed
    using iterator = typename std::vector<value_type>::iterator;
    using const_iterator = typename std::vector<value_type>::const_iterator;

    KeyMap() = default;
    KeyMap(std::initializer_list<value_type> entries) {
        for (const value_type& entry : entries) try_emplace(entry.first, entry.second);
    }

    [[nodiscard]] iterator begin() { return m_entries.begin(); }
    [[nodiscard]] iterator end() { return m_entries.end(); }
    [[nodiscard]] const_iterator begin() const { return m_entries.begin(); }
    [[nodiscard]] const_iterator end() const { return m_entries.end(); }
    [[nodiscard]] std::size_t size() const { return m_entries.size(); }
    [[nodiscard]] bool empty() const { return m_entries.empty(); }

    [[nodiscard]] iterator find(std::string_view key) {
        const auto place = placeOf(m_entries, key);
        return place != end() && place->first == key ? place : end();
    }
    [[nodiscard]] const_iterator find(std::string_view key) const {
        const auto place = placeOf(m_entries, key);
        return place != end() && place->first == key ? place : end();
    }
    [[nodiscard]] bool contains(std::string_view key) const { return find(key) != end(); }

    // Throws std::out_of_range.
    [[nodiscard]] const Value& at(std::string_view key) const {
        const auto found = find(key);
        if (found == end()) throw std::out_of_range("no such key");
        return found->second;
    }
    [[nodiscard]] Value& at(std::string_view key) {
        const auto found = find(key);
        if (found == end()) throw std::out_of_range("no such key");
        return found->second;
    }
    Value& operator[](std::string_view key) { return try_emplace(key).first->second; }

    // Both as std::map has them: the entry, and whether it is new.
    template <class... Arguments>
    std::pair<iterator, bool> try_emplace(std::string_view key, Arguments&&... arguments) {
        const auto place = placeOf(m_entries, key);
        if (place != end() && place->first == key) return {place, false};
        return {m_entries.emplace(place, std::piecewise_construct, std::forward_as_tuple(key),
                                  std::forward_as_tuple(std::forward<Arguments>(arguments)...)),
                true};
    }
    template <class Given>
    std::pair<iterator, bool> insert_or_assign(std::string_view key, Given&& value) {
        const auto place = placeOf(m_entries, key);
        if (place != end() && place->first == key) {
            place->second = std::forward<Given>(value);
            return {place, false};
        }
        return {m_entries.emplace(place, std::piecewise_construct, std::forward_as_tuple(key),
                                  std::forward_as_tuple(std::forward<Given>(value))),
                true};
    }
    // A key that comes after all that are there.
    Value& append(std::string_view key, Value value) {
        return m_entries.emplace_back(key, std::move(value)).second;
    }
    Value& append(std::string_view key) {
        return m_entries
            .emplace_back(std::piecewise_construct, std::forward_as_tuple(key), std::tuple<>())
            .second;
    }
    void reserve(std::size_t count) { m_entries.reserve(count); }
    std::pair<iterator, bool> insert(value_type entry) {
        return try_emplace(entry.first, std::move(entry.second));
    }

    iterator erase(const_iterator place) { return m_entries.erase(place); }
    std::size_t erase(std::string_view key) {
        const auto found = find(key);
        if (found == end()) return 0;
        m_entries.erase(found);
        return 1;
    }
    // Keeps its memory.
    void clear() { m_entries.clear(); }

    bool operator==(const KeyMap&) const = default;

private:
    template <class Entries>
    static auto placeOf(Entries& entries, std::string_view key) {
        return std::lower_bound(
            entries.begin(), entries.end(), key,
            [](const value_type& entry, std::string_view wanted) { return entry.first < wanted; });
    }

    std::vector<value_type> m_entries;  // sorted
};

template <class Value, class Condition>
std::size_t erase_if(KeyMap<Value>& map, Condition condition) {
    const std::size_t before = map.size();
    for (auto place = map.begin(); place != map.end();) {
        place = condition(*place) ? map.erase(place) : place + 1;
    }
    return before - map.size();
}

}  // namespace logbook
