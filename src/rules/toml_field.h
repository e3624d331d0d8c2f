// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading one typed value of a TOML text and saying where it stands if it is not what is wanted.
// Knows the shapes of values, and nothing of what a rulebook asks.
#pragma once

#include "logbook/instant.h"
#include "rules/rulebook_reader.h"

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <toml++/toml.h>

namespace rules {

using RemarkCode = RulebookRemark::Code;

struct Place {
    std::string path;
    int line = 0;
    int column = 0;
};

// Takes no more than ten thousand remarks: nobody reads on so far, and a text made for harm could
// call for more than fit into memory.
class RemarkList {
public:
    void add(RemarkCode code, const Place& place, std::string detail = {});
    [[nodiscard]] bool isFull() const;

    // By line and column; those of one place in the order in which they were added.
    [[nodiscard]] std::vector<RulebookRemark> sorted() const;

private:
    std::vector<RulebookRemark> m_remarks;
};

// A value in the text. `node` is never null and lives as long as the parsed text.
struct Field {
    std::string name;     // without the path; of a list element its index
    const toml::node* node = nullptr;
    Place namePlace;      // where the name stands; of a list element the same as `place`
    Place place;          // where the value stands
};

using Fields = std::vector<Field>;

[[nodiscard]] Field rootField(const toml::table& root);

// Where the value at this path stands, or else the innermost table or list on the way there.
[[nodiscard]] Place placeIn(const toml::table& root, const std::vector<std::string>& path);

// Each adds WrongType, or the more exact remark it names, where it gives nothing.
[[nodiscard]] std::optional<std::string> readText(const Field& field, RemarkList& faults);
[[nodiscard]] std::optional<bool> readFlag(const Field& field, RemarkList& faults);
// A finite number, whole or not. BadNumber.
[[nodiscard]] std::optional<double> readNumber(const Field& field, RemarkList& faults);
// A whole number from 0 to 2^31 - 1. BadNumber.
[[nodiscard]] std::optional<int> readCount(const Field& field, RemarkList& faults);
// BadDuration.
[[nodiscard]] std::optional<Duration> readDuration(const Field& field, RemarkList& faults);
// BadInterval.
[[nodiscard]] std::optional<CalendarInterval> readInterval(const Field& field, RemarkList& faults);
// BadKey.
[[nodiscard]] std::optional<std::string> readKey(const Field& field, RemarkList& faults);
// Those elements that are keys. BadKey.
[[nodiscard]] std::optional<std::vector<std::string>> readKeys(const Field& field,
                                                               RemarkList& faults);

// As many as a list, a condition or a section of tables may hold, unless it says otherwise: several
// times what any department asks for, and so few that every answer is quick.
inline constexpr std::size_t mostListed = 100;

// TooMany, at the first that the text has beyond so many.
void refuseMoreThan(std::size_t most, const Fields& fields, RemarkList& faults);

// The elements of a list, the members of a table. TooMany of a list.
[[nodiscard]] std::optional<Fields> elementsOf(const Field& field, RemarkList& faults);
[[nodiscard]] std::optional<Fields> membersOf(const Field& field, RemarkList& faults);

// Whether a field of this name is kept and means nothing.
[[nodiscard]] bool isReservedForLater(std::string_view name);

// A table of named fields, which keeps account of those that were asked for.
class TableReader {
public:
    // WrongType and a table without fields if it is no table.
    TableReader(const Field& field, RemarkList& faults);

    [[nodiscard]] bool isTable() const { return m_isTable; }
    [[nodiscard]] const Field& field() const { return m_field; }
    [[nodiscard]] RemarkList& faults() const { return *m_faults; }

    [[nodiscard]] std::optional<Field> find(std::string_view name);

    // Missing, at the place of the table.
    [[nodiscard]] std::optional<Field> require(std::string_view name);

    // `target` becomes what `read(field, faults)` gives, and stays as it is if that is nothing.
    // Whether it was set.
    template <class Target, class Read>
    bool take(std::string_view name, Target& target, Read read) {
        return assign(find(name), target, read);
    }
    template <class Target, class Read>
    bool takeRequired(std::string_view name, Target& target, Read read) {
        return assign(require(name), target, read);
    }

    // UnknownField for every field that was not asked for.
    void refuseOthers() const;

private:
    template <class Target, class Read>
    bool assign(const std::optional<Field>& found, Target& target, Read& read) {
        if (!found) {
            return false;
        }
        auto value = read(*found, *m_faults);
        if (!value) {
            return false;
        }
        target = std::move(*value);
        return true;
    }

    Field m_field;
    RemarkList* m_faults;
    bool m_isTable = false;
    Fields m_members;
    std::set<std::string, std::less<>> m_asked;
};

}  // namespace rules
