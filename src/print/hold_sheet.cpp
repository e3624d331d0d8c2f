// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet of a hold; see hold_sheet.h.
#include "print/hold_sheet.h"

namespace print {

namespace {

using Role = Block::Role;

// How often whoever has the unit may hand it on before a new sheet is wanted.
constexpr int custodyLines = 4;

std::string unitLine(const report::BedsideIdentity& unit) {
    std::string line;
    for (const auto& part : {unit.asset, unit.label, unit.model, unit.place})
        if (!part.empty()) line += (line.empty() ? "" : " · ") + part;
    return line;
}

void addCustody(const words::Words& words, Paper& paper) {
    paper.blocks.push_back({Role::Heading, words.say("paper.custody")});
    for (int line = 0; line < custodyLines; ++line)
        paper.blocks.push_back({Role::Blank, words.say("paper.custody_line")});
}

}  // namespace

Paper holdSheetPaper(const words::Words& words, const HoldSheetAsked& asked) {
    const auto& [unit, sheet, edition, knownAt, printed, size, reason] = asked;
    Paper paper;
    paper.title = words.say("paper.hold_title", {{"device", unit.device}, {"hold", sheet.label}});
    paper.size = size;
    paper.blocks = {{Role::Title, sheet.label}, {Role::Large, unit.serial}};
    if (const auto line = unitLine(unit); !line.empty())
        paper.blocks.push_back({Role::Plain, line});
    paper.blocks.push_back(
        {Role::Plain, words.say("paper.hold_since", {{"when", sheet.since}, {"who", sheet.by}})});
    if (!reason.empty())
        paper.blocks.push_back({Role::Plain, words.say("paper.hold_reason", {{"reason", reason}})});
    if (!sheet.lifters.empty()) paper.blocks.push_back({Role::Plain, sheet.lifters});
    paper.blocks.push_back({Role::Heading, words.say("paper.hold_lines")});
    for (const auto& line : sheet.lines) paper.blocks.push_back({Role::Item, line});
    addCustody(words, paper);
    paper.foot = {words.say("paper.caution"),
                  words.say("paper.edition", {{"edition", edition}}),
                  words.say("paper.times", {{"known", knownAt}, {"printed", printed}})};
    paper.pageOf = [&words](int page, int pages) {
        return words.say("paper.page_of",
                         {{"page", std::to_string(page)}, {"pages", std::to_string(pages)}});
    };
    return paper;
}

}  // namespace print
