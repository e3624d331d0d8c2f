// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fleet lists as text and as JSON; see fleet_answer.h.
#include "cli/fleet_answer.h"

#include "report/layout.h"
#include "words/shown.h"

#include <algorithm>
#include <array>

namespace cli {

namespace {

namespace json = logbook::json;

std::string listed(const words::Words& words, const std::vector<std::string>& keys) {
    std::vector<std::string> readable;
    for (const auto& key : keys) {
        readable.push_back(words::readable(key));
    }
    return words.all(readable);
}

std::vector<std::string> cellsOf(const words::Words& words, const station::GoodUnit& good) {
    const auto& unit = good.row.unit;
    const auto text = [](const std::optional<std::string>& value) {
        return words::shown(value.value_or(""));
    };
    std::string remarks;
    for (const auto& remark : good.remarks) {
        remarks += (remarks.empty() ? "" : " ") + remark;
    }
    return {std::to_string(good.row.line),
            words::shown(good.row.serial),
            text(unit.label),
            text(unit.asset),
            words::shown(unit.model),
            listed(words, unit.groups),
            listed(words, unit.features),
            logbook::toText(unit.commissioned),
            text(unit.location),
            remarks};
}

// Columns in which nothing stands are left out.
std::string goodText(const std::vector<station::GoodUnit>& good, const words::Words& words,
                     std::size_t width) {
    constexpr std::array<std::string_view, 10> titles{
        "line", "unit", "name", "asset", "model", "groups", "features", "commissioned", "place",
        "remarks"};
    std::vector<std::vector<std::string>> rows;
    for (const auto& unit : good) {
        rows.push_back(cellsOf(words, unit));
    }
    std::vector<std::size_t> filled;
    std::vector<std::string> heads;
    for (std::size_t column = 0; column < titles.size(); ++column) {
        if (std::ranges::any_of(rows, [&](const auto& row) { return !row[column].empty(); })) {
            filled.push_back(column);
            heads.push_back(words.say("fleet." + std::string(titles[column])));
        }
    }
    report::Table table(heads);
    for (const auto& row : rows) {
        std::vector<std::string> cells;
        for (const auto column : filled) {
            cells.push_back(row[column]);
        }
        table.add(std::move(cells));
    }
    return table.text(width - 2, 2);
}

std::string refusedText(const station::RefusedUnit& refused, const words::Words& words,
                        std::size_t width) {
    const auto line = std::to_string(refused.line);
    auto text = "  " +
                (refused.serial.empty()
                     ? words.say("fleet.refused_line", {{"line", line}})
                     : words.say("fleet.refused_unit", {{"line", line},
                                                        {"unit", refused.serial}})) +
                "\n";
    for (const auto& reason : refused.reasons) {
        auto sentence = reason.sentence.text();
        if (reason.code == "patient_text") {
            sentence += " " + words.say("call.say_so", {{"option", "--names-no-patient"}}) + ".";
        }
        text += report::wrapped(reason.column.empty()
                                    ? sentence
                                    : words.say("fleet.in_column", {{"column", reason.column},
                                                                    {"sentence", sentence}}),
                                width, 4);
    }
    return text;
}

json::Value orNull(const std::optional<std::string>& text) {
    return text ? json::Value(*text) : json::Value();
}

json::Array arrayOf(const std::vector<std::string>& texts) {
    return {texts.begin(), texts.end()};
}

json::Value toJson(const station::GoodUnit& good) {
    const auto& unit = good.row.unit;
    return json::Object{{"line", static_cast<double>(good.row.line)},
                        {"serial", good.row.serial},
                        {"model", unit.model},
                        {"groups", arrayOf(unit.groups)},
                        {"features", arrayOf(unit.features)},
                        {"commissioned", logbook::toText(unit.commissioned)},
                        {"label", orNull(unit.label)},
                        {"asset", orNull(unit.asset)},
                        {"maker", orNull(unit.maker)},
                        {"udi", orNull(unit.udi)},
                        {"location", orNull(unit.location)},
                        {"owner", orNull(unit.owner)},
                        {"return_by", orNull(unit.returnBy)},
                        {"remarks", arrayOf(good.remarks)}};
}

json::Value toJson(const station::RefusedUnit& refused) {
    json::Array reasons;
    for (const auto& reason : refused.reasons) {
        reasons.push_back(json::Object{
            {"reason", reason.code},
            {"column", reason.column.empty() ? json::Value() : json::Value(reason.column)},
            {"says", reason.sentence.text()}});
    }
    return json::Object{
        {"line", static_cast<double>(refused.line)},
        {"serial", refused.serial.empty() ? json::Value() : json::Value(refused.serial)},
        {"reasons", std::move(reasons)}};
}

}  // namespace

std::string toText(const station::FleetPreview& preview, std::string_view logbook,
                   std::string_view heading, const words::Words& words) {
    const auto width = report::usableWidth({});
    std::string text = report::wrapped(
        words.say("fleet.title", {{"path", preview.list.string()},
                                  {"logbook", std::string(logbook)}}),
        width);
    if (!preview.ignoredColumns.empty()) {
        std::vector<std::string> quoted;
        for (const auto& column : preview.ignoredColumns) {
            quoted.push_back("\"" + column + "\"");
        }
        text += report::wrapped(words.say("fleet.ignored", {{"columns", words.all(quoted)}}),
                                width);
    }
    if (preview.good.empty()) {
        text += "\n" + words.say("fleet.none_good") + "\n";
    } else {
        text += "\n" +
                words.say(heading, {{"count", std::to_string(preview.good.size())}}) + "\n" +
                goodText(preview.good, words, width);
    }
    if (!preview.refused.empty()) {
        text += "\n" +
                words.say("fleet.refused", {{"count", std::to_string(preview.refused.size())}}) +
                "\n";
        for (const auto& refused : preview.refused) {
            text += refusedText(refused, words, width);
        }
    }
    return text;
}

json::Value toJson(const station::FleetPreview& preview,
                   const std::optional<station::FleetTaken>& taken) {
    json::Array good, refused, records;
    for (const auto& unit : preview.good) {
        good.push_back(toJson(unit));
    }
    for (const auto& unit : preview.refused) {
        refused.push_back(toJson(unit));
    }
    if (taken) {
        for (const auto& record : taken->records) {
            records.emplace_back(toText(record));
        }
    }
    return json::Object{{"list", preview.list.string()},
                        {"ignored_columns", arrayOf(preview.ignoredColumns)},
                        {"good", std::move(good)},
                        {"refused", std::move(refused)},
                        {"taken", taken.has_value()},
                        {"records", std::move(records)}};
}

}  // namespace cli
