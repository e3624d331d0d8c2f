// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Other names for the names of a case, chosen at random and in the same order: what sorts first
// sorts first again. First the names are collected, then settled, then looked up.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace conformance {

// Names of one kind live in one space. Positions, choices and conflicts share theirs, since a
// finding's subject may be any of them.
enum class NameKind {
    Place,
    Check,
    Group,
    Service,
    Hold,
    Fault,
    Alarm,
    Feature,
    Role,
    Condition,
    Measure,
    Notice,
    Attribute,
    AttributeValue,
    Station,
    Person,
    Device,
    Serial,
    Lot,
    Model,
};

class Names {
public:
    // Before settle: notes the name and gives it back. After: its other name. A name that means
    // something by itself (a reserved word, text that is no name, "*") is given back always.
    [[nodiscard]] std::string operator()(NameKind kind, const std::string& name);

    // Chooses the other names; the same seed and names give the same ones.
    void settle(std::uint64_t seed);

    // How many names have another one.
    [[nodiscard]] std::size_t size() const;

private:
    std::map<NameKind, std::map<std::string, std::string>> m_others;
    bool m_settled = false;
};

// Whether a part's attribute of that name has a meaning of its own.
[[nodiscard]] bool isReservedAttribute(std::string_view name);

// The kind of name that follows a word in an answer or event ("due", "fit", "group_unsupported",
// "condition"): a finding, task, blocker, event or reason. Nothing where none follows.
[[nodiscard]] std::optional<NameKind> kindAfter(std::string_view word);

// "fit circuit": the word stays, the name after it gets its other name. Other texts stay.
[[nodiscard]] std::string renamedPhrase(const std::string& phrase, Names& names);

}  // namespace conformance
