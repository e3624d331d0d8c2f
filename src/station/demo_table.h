// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads the fields of one table of a scenario and notes every one that is missing or of another
// type, so that all faults can be told at once. Knows no field by name.
#pragma once

#include "station/demo_scenario.h"

#include <functional>
#include <string>
#include <string_view>
#include <toml++/toml.h>
#include <vector>

namespace station::demo {

using Faults = std::vector<std::string>;

class Table {
public:
    // `path` is how faults name the table.
    Table(const toml::table& table, std::string path, Faults& faults)
        : m_table(table), m_path(std::move(path)), m_faults(faults) {}

    [[nodiscard]] bool has(std::string_view name) const { return m_table.contains(name); }
    [[nodiscard]] std::string text(std::string_view name) const;
    [[nodiscard]] std::string textOr(std::string_view name, std::string_view otherwise) const;
    [[nodiscard]] int number(std::string_view name) const;
    [[nodiscard]] int numberOr(std::string_view name, int otherwise) const;
    [[nodiscard]] bool truthOr(std::string_view name, bool otherwise) const;
    [[nodiscard]] std::vector<std::string> textsOr(std::string_view name) const;  // none: empty
    [[nodiscard]] ByKey<std::string> textTable(std::string_view name) const;      // none: empty
    [[nodiscard]] Range range(std::string_view name) const;          // [low, high]
    [[nodiscard]] Duration timeOfDay(std::string_view name) const;   // "HH:MM"
    [[nodiscard]] std::vector<Duration> timesOfDay(std::string_view name) const;
    [[nodiscard]] Duration durationOr(std::string_view name) const;  // ISO 8601; none: zero
    [[nodiscard]] Routine steps(std::string_view name) const;

    using Reader = std::function<void(const Table&)>;
    using KeyReader = std::function<void(const std::string&, const Table&)>;

    void one(std::string_view name, const Reader& read) const;       // a table that must be there
    void eachOf(std::string_view name, const Reader& read) const;    // an array of tables, or none
    void eachKey(std::string_view name, const KeyReader& read) const;  // tables by key, or none

    [[nodiscard]] const toml::table& raw() const { return m_table; }
    void fault(std::string_view name, std::string_view what) const;

private:
    const toml::table& m_table;
    std::string m_path;
    Faults& m_faults;
};

}  // namespace station::demo
