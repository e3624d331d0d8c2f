// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fields of scenario tables.
#include "station/demo_table.h"

namespace station::demo {

namespace {

std::optional<Duration> parseTimeOfDay(std::string_view text) {
    const auto digit = [&](std::size_t index) {
        return text[index] >= '0' && text[index] <= '9' ? text[index] - '0' : 1000;
    };
    if (text.size() != 5 || text[2] != ':') {
        return std::nullopt;
    }
    const int hours = digit(0) * 10 + digit(1);
    const int minutes = digit(3) * 10 + digit(4);
    if (hours > 23 || minutes > 59) {
        return std::nullopt;
    }
    return Duration{(hours * 60 + minutes) * 60'000LL};
}

}  // namespace

void Table::fault(std::string_view name, std::string_view what) const {
    m_faults.push_back(m_path + "." + std::string(name) + ": " + std::string(what));
}

std::string Table::text(std::string_view name) const {
    if (const auto value = m_table[name].value_exact<std::string>()) {
        return *value;
    }
    fault(name, "a text is wanted");
    return {};
}

std::string Table::textOr(std::string_view name, std::string_view otherwise) const {
    return has(name) ? text(name) : std::string(otherwise);
}

int Table::number(std::string_view name) const {
    if (const auto value = m_table[name].value_exact<std::int64_t>()) {
        return static_cast<int>(*value);
    }
    fault(name, "a whole number is wanted");
    return 0;
}

int Table::numberOr(std::string_view name, int otherwise) const {
    return has(name) ? number(name) : otherwise;
}

bool Table::truthOr(std::string_view name, bool otherwise) const {
    if (!has(name)) {
        return otherwise;
    }
    if (const auto value = m_table[name].value_exact<bool>()) {
        return *value;
    }
    fault(name, "true or false is wanted");
    return otherwise;
}

std::vector<std::string> Table::textsOr(std::string_view name) const {
    std::vector<std::string> texts;
    if (!has(name)) {
        return texts;
    }
    const toml::array* list = m_table[name].as_array();
    if (list == nullptr || !(list->empty() || list->is_homogeneous<std::string>())) {
        fault(name, "a list of texts is wanted");
        return texts;
    }
    for (const toml::node& item : *list) {
        texts.push_back(**item.as_string());
    }
    return texts;
}

ByKey<std::string> Table::textTable(std::string_view name) const {
    ByKey<std::string> texts;
    if (!has(name)) {
        return texts;
    }
    one(name, [&](const Table& table) {
        for (const auto& [key, value] : table.raw()) {
            texts.emplace(key.str(), table.text(key.str()));
        }
    });
    return texts;
}

Range Table::range(std::string_view name) const {
    const toml::array* list = m_table[name].as_array();
    if (list == nullptr || list->size() != 2 || !list->is_homogeneous<std::int64_t>()) {
        fault(name, "two whole numbers are wanted");
        return {};
    }
    const Range range{static_cast<int>(**list->get_as<std::int64_t>(0)),
                      static_cast<int>(**list->get_as<std::int64_t>(1))};
    if (range.low > range.high) {
        fault(name, "the lower number comes first");
        return {};
    }
    return range;
}

Duration Table::timeOfDay(std::string_view name) const {
    if (const auto time = parseTimeOfDay(text(name))) {
        return *time;
    }
    fault(name, "a time of day as HH:MM is wanted");
    return {};
}

std::vector<Duration> Table::timesOfDay(std::string_view name) const {
    std::vector<Duration> times;
    for (const std::string& written : textsOr(name)) {
        const auto time = parseTimeOfDay(written);
        if (!time) {
            fault(name, "a time of day as HH:MM is wanted");
        }
        times.push_back(time.value_or(Duration{}));
    }
    return times;
}

Duration Table::durationOr(std::string_view name) const {
    if (!has(name)) {
        return {};
    }
    if (const auto duration = logbook::parseDuration(text(name))) {
        return *duration;
    }
    fault(name, "a duration such as PT2H is wanted");
    return {};
}

Routine Table::steps(std::string_view name) const {
    if (!has(name)) {
        fault(name, "a list of steps is wanted");
    }
    Routine routine;
    for (const std::string& line : textsOr(name)) {
        auto step = parseStep(line);
        if (step) {
            routine.push_back(*std::move(step));
        } else {
            fault(name, "\"" + line + "\": " + step.error());
        }
    }
    return routine;
}

void Table::one(std::string_view name, const Reader& read) const {
    if (const toml::table* table = m_table[name].as_table()) {
        read(Table(*table, m_path + "." + std::string(name), m_faults));
    } else {
        fault(name, "a table is wanted");
    }
}

void Table::eachOf(std::string_view name, const Reader& read) const {
    const toml::array* list = m_table[name].as_array();
    if (list == nullptr) {
        return;
    }
    int index = 0;
    for (const toml::node& item : *list) {
        const std::string path = m_path + "." + std::string(name) + "." + std::to_string(index++);
        if (const toml::table* table = item.as_table()) {
            read(Table(*table, path, m_faults));
        } else {
            m_faults.push_back(path + ": a table is wanted");
        }
    }
}

void Table::eachKey(std::string_view name, const KeyReader& read) const {
    const toml::table* tables = m_table[name].as_table();
    if (tables == nullptr) {
        return;
    }
    for (const auto& [key, value] : *tables) {
        const std::string path = m_path + "." + std::string(name) + "." + std::string(key.str());
        if (const toml::table* table = value.as_table()) {
            read(std::string(key.str()), Table(*table, path, m_faults));
        } else {
            m_faults.push_back(path + ": a table is wanted");
        }
    }
}

}  // namespace station::demo
