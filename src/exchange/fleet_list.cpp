// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading fleet lists; see fleet_list.h.
#include "exchange/fleet_list.h"

#include "exchange/csv.h"
#include "logbook/text.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <utility>

namespace exchange {

namespace {

using Code = FleetFault::Code;
using logbook::body::Enrol;

constexpr std::array<std::string_view, 4> wantedColumns{"serial", "model", "groups",
                                                        "commissioned"};

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    const auto last = text.find_last_not_of(" \t");
    return first == std::string_view::npos ? std::string_view()
                                           : text.substr(first, last - first + 1);
}

std::string inSmallLetters(std::string_view text) {
    std::string small(text);
    std::ranges::transform(small, small.begin(), [](char letter) {
        return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    });
    return small;
}

// Those of Unicode's category Cc, in valid UTF-8.
bool hasControlCharacter(std::string_view text) {
    for (std::size_t place = 0; place < text.size(); ++place) {
        const auto byte = static_cast<unsigned char>(text[place]);
        const bool isLatinOne = byte == 0xC2 && place + 1 < text.size() &&
                                static_cast<unsigned char>(text[place + 1]) < 0xA0;
        if (byte < 0x20 || byte == 0x7F || isLatinOne) {
            return true;
        }
    }
    return false;
}

std::size_t charactersIn(std::string_view text) {
    return static_cast<std::size_t>(std::ranges::count_if(text, [](char byte) {
        return (static_cast<unsigned char>(byte) & 0xC0) != 0x80;
    }));
}

std::vector<std::string> listIn(std::string_view cell) {
    std::vector<std::string> items;
    while (!cell.empty()) {
        const auto end = std::min(cell.find(';'), cell.size());
        const auto item = trimmed(cell.substr(0, end));
        if (!item.empty()) {
            items.emplace_back(item);
        }
        cell.remove_prefix(std::min(end + 1, cell.size()));
    }
    std::ranges::sort(items);
    items.erase(std::ranges::unique(items).begin(), items.end());
    return items;
}

// Values against what the columns may hold.
class Looking {
public:
    explicit Looking(std::vector<FleetFault>& faults) : m_faults(faults) {}

    void name(std::string_view column, std::string_view text) {
        if (text.empty()) {
            m_faults.push_back({Code::Missing, std::string(column)});
        } else if (isPlain(column, text) && !logbook::isName(text)) {
            m_faults.push_back({Code::BadName, std::string(column), std::string(text)});
        }
    }
    void name(std::string_view column, const std::optional<std::string>& text) {
        if (text) {
            name(column, std::string_view(*text));
        }
    }
    void freeText(std::string_view column, const std::optional<std::string>& text) {
        if (text && isPlain(column, *text) && charactersIn(*text) > longestFleetText) {
            m_faults.push_back({Code::TooLongText, std::string(column)});
        }
    }
    void keys(std::string_view column, const std::vector<std::string>& keys) {
        const auto found = std::ranges::find_if_not(
            keys, [](const std::string& key) { return logbook::isKey(key); });
        if (found != keys.end()) {
            m_faults.push_back({Code::BadKey, std::string(column), *found});
        }
    }
    void day(std::string_view column, const std::optional<std::string>& text) {
        if (text && !logbook::parseDay(*text)) {
            m_faults.push_back({Code::BadDay, std::string(column), *text});
        }
    }
    void missing(std::string_view column) {
        m_faults.push_back({Code::Missing, std::string(column)});
    }

private:
    bool isPlain(std::string_view column, std::string_view text) {
        if (hasControlCharacter(text)) {
            m_faults.push_back({Code::ControlCharacter, std::string(column)});
            return false;
        }
        return true;
    }

    std::vector<FleetFault>& m_faults;
};

// The header: which known column stands where.
struct Header {
    std::map<std::string, std::size_t, std::less<>> places;
    std::size_t count = 0;

    // "" where the list lacks the column.
    [[nodiscard]] std::string_view cell(const CsvRow& row, std::string_view column) const {
        const auto found = places.find(column);
        return found == places.end() ? std::string_view() : trimmed(row.cells[found->second]);
    }
    [[nodiscard]] std::optional<std::string> optional(const CsvRow& row,
                                                      std::string_view column) const {
        const auto text = cell(row, column);
        return text.empty() ? std::nullopt : std::optional<std::string>(text);
    }
};

std::optional<Code> codeOf(const CsvRow& row) {
    if (!row.fault) {
        return std::nullopt;
    }
    switch (*row.fault) {
        case CsvFault::StrayQuote: return Code::StrayQuote;
        case CsvFault::OpenQuote: return Code::OpenQuote;
        case CsvFault::TooManyCells: break;
    }
    return Code::CellCount;
}

class Reading {
public:
    explicit Reading(std::string_view bytes) : m_rows(bytes) {}

    tl::expected<FleetList, std::vector<FleetFault>> run() {
        readHeader();
        if (m_faults.empty()) {
            readRows();
        }
        if (!m_faults.empty()) {
            return tl::unexpected(std::move(m_faults));
        }
        refuseTwins();
        for (auto& draft : m_drafts) {
            if (draft.faults.empty()) {
                m_list.rows.push_back(std::move(draft.row));
            } else {
                m_list.refused.push_back(std::move(draft));
            }
        }
        return std::move(m_list);
    }

private:
    void readHeader() {
        const auto row = m_rows.next();
        if (!row) {
            m_faults.push_back({Code::NoHeader});
            return;
        }
        if (const auto code = codeOf(*row)) {
            m_faults.push_back({*code, "", std::to_string(row->cells.size())});
            return;
        }
        if (const auto code = otherSeparator(*row)) {
            m_faults.push_back({*code});
            return;
        }
        m_header.count = row->cells.size();
        for (std::size_t place = 0; place < row->cells.size(); ++place) {
            readColumn(row->cells[place], place);
        }
        for (const auto column : wantedColumns) {
            if (!m_header.places.contains(column)) {
                m_faults.push_back({Code::ColumnMissing, std::string(column)});
            }
        }
    }

    static std::optional<Code> otherSeparator(const CsvRow& row) {
        const auto only = inSmallLetters(row.cells.front());
        const auto has = [&](std::string_view text) { return only.find(text) != only.npos; };
        if (row.cells.size() > 1 || !has("serial")) {
            return std::nullopt;
        }
        return has("\t")  ? std::optional(Code::Tabs)
               : has(";") ? std::optional(Code::Semicolons)
                          : std::nullopt;
    }

    void readColumn(const std::string& cell, std::size_t place) {
        const auto text = trimmed(cell);
        const auto column = inSmallLetters(text);
        const bool isKnown = std::ranges::find(fleetColumns(), column) != fleetColumns().end();
        if (!isKnown) {
            if (!text.empty()) {
                m_list.ignored.emplace_back(text);
            }
        } else if (!m_header.places.emplace(column, place).second) {
            m_faults.push_back({Code::ColumnTwice, column});
        }
    }

    void readRows() {
        while (auto row = m_rows.next()) {
            if (std::ranges::all_of(row->cells, [](const auto& cell) {
                    return trimmed(cell).empty();
                }) && !row->fault) {
                continue;
            }
            if (m_drafts.size() == mostFleetRows) {
                m_faults.push_back({Code::TooManyRows, "", std::to_string(mostFleetRows)});
                return;
            }
            m_drafts.push_back(draftOf(*row));
        }
    }

    [[nodiscard]] RefusedFleetRow draftOf(const CsvRow& row) const {
        RefusedFleetRow draft{{row.line, "", {}}, {}};
        if (const auto code = codeOf(row)) {
            draft.faults.push_back({*code, "", std::to_string(row.cells.size())});
            return draft;
        }
        if (row.cells.size() != m_header.count) {
            draft.faults.push_back({Code::CellCount, "", std::to_string(row.cells.size())});
            return draft;
        }
        draft.row.serial = m_header.cell(row, "serial");
        auto& unit = draft.row.unit;
        unit.model = m_header.cell(row, "model");
        unit.groups = listIn(m_header.cell(row, "groups"));
        unit.features = listIn(m_header.cell(row, "features"));
        const std::pair<std::string_view, std::optional<std::string> Enrol::*> texts[] = {
            {"label", &Enrol::label}, {"asset", &Enrol::asset},       {"maker", &Enrol::maker},
            {"udi", &Enrol::udi},     {"location", &Enrol::location}, {"owner", &Enrol::owner},
            {"return_by", &Enrol::returnBy}};
        for (const auto& [column, member] : texts) {
            unit.*member = m_header.optional(row, column);
        }
        draft.faults = faultsOf(draft.row);
        readCommissioned(row, draft);
        return draft;
    }

    void readCommissioned(const CsvRow& row, RefusedFleetRow& draft) const {
        const auto text = m_header.optional(row, "commissioned");
        Looking looking(draft.faults);
        looking.day("commissioned", text);
        if (!text) {
            looking.missing("commissioned");
        } else if (const auto day = logbook::parseDay(*text)) {
            draft.row.unit.commissioned = *day;
        }
    }

    // A scan of a number that two units share would be of either.
    void refuseTwins() {
        std::map<std::string, std::set<std::size_t>, std::less<>> lines;
        for (const auto& draft : m_drafts) {
            lines[draft.row.serial].insert(draft.row.line);
            lines[draft.row.unit.asset.value_or("")].insert(draft.row.line);
        }
        for (auto& draft : m_drafts) {
            const auto refuse = [&](std::string_view column, const std::string& number) {
                auto others = lines[number];
                others.erase(draft.row.line);
                if (!number.empty() && !others.empty()) {
                    draft.faults.push_back({Code::NumberTwice, std::string(column),
                                            std::to_string(*others.begin())});
                }
            };
            refuse("serial", draft.row.serial);
            refuse("asset", draft.row.unit.asset.value_or(""));
        }
    }

    CsvReader m_rows;
    Header m_header;
    std::vector<FleetFault> m_faults;
    std::vector<RefusedFleetRow> m_drafts;  // refused if anything is found
    FleetList m_list;
};

std::size_t firstLineNotUtf8(std::string_view bytes) {
    std::size_t line = 1;
    while (!bytes.empty()) {
        const auto end = std::min(bytes.find('\n'), bytes.size());
        if (!logbook::isUtf8(bytes.substr(0, end))) {
            return line;
        }
        bytes.remove_prefix(std::min(end + 1, bytes.size()));
        ++line;
    }
    return line;
}

}  // namespace

const std::vector<std::string_view>& fleetColumns() {
    static const std::vector<std::string_view> columns{
        "serial", "model", "groups", "features", "commissioned", "label",
        "asset",  "maker", "udi",    "location", "owner",        "return_by"};
    return columns;
}

std::string_view name(FleetFault::Code code) {
    switch (code) {
        case Code::TooLong: return "too_long";
        case Code::NotUtf8: return "not_utf8";
        case Code::NoHeader: return "no_header";
        case Code::Semicolons: return "semicolons";
        case Code::Tabs: return "tabs";
        case Code::ColumnMissing: return "column_missing";
        case Code::ColumnTwice: return "column_twice";
        case Code::TooManyRows: return "too_many_rows";
        case Code::StrayQuote: return "stray_quote";
        case Code::OpenQuote: return "open_quote";
        case Code::CellCount: return "cell_count";
        case Code::Missing: return "missing";
        case Code::BadName: return "bad_name";
        case Code::BadKey: return "bad_key";
        case Code::BadDay: return "bad_day";
        case Code::ControlCharacter: return "control_character";
        case Code::TooLongText: return "too_long_text";
        case Code::NumberTwice: break;
    }
    return "number_twice";
}

tl::expected<FleetList, std::vector<FleetFault>> readFleetList(std::string_view bytes) {
    if (bytes.size() > longestFleetList) {
        return tl::unexpected(std::vector<FleetFault>{{Code::TooLong}});
    }
    if (!logbook::isUtf8(bytes)) {
        return tl::unexpected(std::vector<FleetFault>{
            {Code::NotUtf8, "", std::to_string(firstLineNotUtf8(bytes))}});
    }
    return Reading(bytes).run();
}

std::vector<FleetFault> faultsOf(const FleetRow& row) {
    std::vector<FleetFault> faults;
    Looking looking(faults);
    looking.name("serial", std::string_view(row.serial));
    looking.name("model", std::string_view(row.unit.model));
    if (row.unit.groups.empty()) {
        looking.missing("groups");
    }
    looking.keys("groups", row.unit.groups);
    looking.keys("features", row.unit.features);
    looking.freeText("label", row.unit.label);
    looking.name("asset", row.unit.asset);
    looking.freeText("maker", row.unit.maker);
    looking.freeText("udi", row.unit.udi);
    looking.name("location", row.unit.location);
    looking.freeText("owner", row.unit.owner);
    looking.day("return_by", row.unit.returnBy);
    return faults;
}

}  // namespace exchange
