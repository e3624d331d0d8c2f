// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads the tables of keys. Knows no language.
#include "words/keys.h"

#include "words/key_tables.h"

#include <algorithm>
#include <string_view>

namespace words {

namespace {

void addEntry(SentenceKeys& keys, const std::string& prefix, std::string_view entry) {
    const auto open = entry.find('(');
    std::vector<std::string> gaps;
    if (open != std::string_view::npos) {
        auto rest = entry.substr(open + 1, entry.size() - open - 2);
        while (!rest.empty()) {
            const auto end = std::min(rest.find(' '), rest.size());
            gaps.emplace_back(rest.substr(0, end));
            rest.remove_prefix(std::min(end + 1, rest.size()));
        }
    }
    keys.emplace(prefix + "." + std::string(entry.substr(0, open)), std::move(gaps));
}

// Entries are parted by blanks, but for those in brackets.
void addLine(SentenceKeys& keys, std::string_view line) {
    const auto colon = line.find(':');
    const std::string prefix(line.substr(0, colon));
    std::size_t begin = colon + 2;
    bool inside = false;
    for (std::size_t at = begin; at <= line.size(); ++at) {
        if (at < line.size() && line[at] == '(') inside = true;
        if (at < line.size() && line[at] == ')') inside = false;
        if (at < line.size() && (line[at] != ' ' || inside)) continue;
        addEntry(keys, prefix, line.substr(begin, at - begin));
        begin = at + 1;
    }
}

void addTable(SentenceKeys& keys, std::string_view table) {
    while (!table.empty()) {
        const auto end = std::min(table.find('\n'), table.size());
        if (end > 0) addLine(keys, table.substr(0, end));
        table.remove_prefix(std::min(end + 1, table.size()));
    }
}

}  // namespace

const SentenceKeys& sentenceKeys() {
    static const SentenceKeys all = [] {
        SentenceKeys keys;
        addTable(keys, toldKeys());
        addTable(keys, faultKeys());
        addTable(keys, reportKeys());
        addTable(keys, useKeys());
        addTable(keys, traceKeys());
        addTable(keys, peopleKeys());
        addTable(keys, bedsideKeys());
        addTable(keys, fleetKeys());
        addTable(keys, historyKeys());
        addTable(keys, paperKeys());
        addTable(keys, settingsKeys());
        addTable(keys, safeguardKeys());
        addTable(keys, listKeys());
        addTable(keys, snapshotKeys());
        addTable(keys, rescueKeys());
        return keys;
    }();
    return all;
}

}  // namespace words
