// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The board as text: the head, ready against par, then the units by verdict.
#include "report/board_places.h"
#include "report/gravity.h"
#include "report/later_doubt.h"
#include "words/finding_words.h"
#include "words/shown.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace report {

namespace {

using rules::Verdict;

struct Section {
    std::string title;
    Table table;
    int count = 0;
};

// Of a unit out of service the holds alone, unless a patient is on it.
bool stands(const rules::Finding& finding, const rules::Assessment& found) {
    const bool blocks = finding.blocking() == rules::Blocks::Yes;
    if (found.inUse) return blocks;
    if (found.verdict == Verdict::Withdrawn)
        return finding.code == rules::FindingCode::Withdrawn;
    return found.verdict == Verdict::NotReady ? blocks : !blocks;
}

// The gravest first; checks in the order in which they are carried out.
class Order {
public:
    explicit Order(const rules::Rulebook& rulebook) : m_checks(checksInOrder(rulebook)) {}

    [[nodiscard]] std::vector<const rules::Finding*> of(const words::Context& context,
                                                        const rules::Assessment& found) const {
        std::vector<const rules::Finding*> findings;
        for (const auto& finding : found.findings) findings.push_back(&finding);
        const auto key = [&](const rules::Finding& finding) {
            return std::pair(gravity(context, finding), placeOf(finding));
        };
        std::stable_sort(findings.begin(), findings.end(),
                         [&](const auto* a, const auto* b) { return key(*a) < key(*b); });
        return findings;
    }

private:
    [[nodiscard]] std::ptrdiff_t placeOf(const rules::Finding& finding) const {
        if (!isOfCheck(finding)) return -1;
        return std::find(m_checks.begin(), m_checks.end(), finding.subject) - m_checks.begin();
    }

    std::vector<std::string> m_checks;
};

// The checks of a ready unit that wait for the start of use, as words.
std::string startChecks(const words::Context& context, const BoardRow& row, const Order& order) {
    std::vector<std::string> checks;
    if (row.assessment.verdict != Verdict::Ready) return "";
    for (const auto* finding : order.of(context, row.assessment))
        if (finding->blocking() == rules::Blocks::Start)
            checks.push_back(context.words.inside(words::subjectLabel(context, *finding)));
    return context.words.all(checks);
}

// Those that most of the ready units wait for: told once, not line by line.
std::string commonStartChecks(const Board& board, const words::Words& words, const Order& order) {
    std::map<std::string, int> counts;
    for (const auto& row : board.rows) ++counts[startChecks(board.context(words, row), row, order)];
    counts.erase("");
    const auto most =
        std::max_element(counts.begin(), counts.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    return most == counts.end() || most->second < 2 ? "" : most->first;
}

// What all lines of a board share.
struct Shared {
    Shared(const PlacedBoard& placed, const words::Words& words)
        : unsaid(placed.unsaid), order(*placed.board.state.rulebook),
          common(commonStartChecks(placed.board, words, order)),
          doubt(words.say(isDoubtByClock(placed.board.provenance) ? "board.later_entries"
                                                                : "board.doubt")) {}
    const PlacesUnsaid& unsaid;
    Order order;
    std::string common;  // checks at the start that are told once
    std::string doubt;   // what is said of a unit in doubt
};

std::string inARow(const std::vector<std::string>& told) {
    std::string text;
    for (const auto& said : told) text += (text.empty() ? "" : "; ") + said;
    return text;
}

// What is missing, for a unit that is ready what to remark, for one in use what stands against it.
std::string briefs(const words::Context& context, const BoardRow& row, const Shared& shared) {
    std::vector<std::string> told;
    const auto& found = row.assessment;
    if (row.inDoubt) told.push_back(shared.doubt);
    if (found.verdict == Verdict::Retired) return inARow(told);
    const bool ready = found.verdict == Verdict::Ready;
    for (const auto* finding : shared.order.of(context, found)) {
        const bool atStart = ready && finding->blocking() == rules::Blocks::Start;
        if (!atStart && stands(*finding, found)) told.push_back(words::brief(context, *finding));
    }
    const auto atStart = startChecks(context, row, shared.order);
    if (!atStart.empty() && atStart != shared.common)
        told.push_back(context.words.say("board.at_start", {{"checks", atStart}}));
    return inARow(told);
}

std::string againstUse(const words::Context& context, const BoardRow& row, const Shared& shared) {
    std::vector<std::string> told;
    if (!row.assessment.inUse) return "";
    for (const auto* finding : shared.order.of(context, row.assessment))
        if (stands(*finding, row.assessment) && !isOfCheck(*finding))
            told.push_back(words::brief(context, *finding));
    return inARow(told);
}

std::string untilText(const words::Context& context, const BoardRow& row) {
    const auto verdict = row.assessment.verdict;
    if (verdict == Verdict::Ready)
        return row.assessment.readyUntil ? context.times().inTable(*row.assessment.readyUntil)
                                         : context.words.say("board.no_end");
    if (context.device->use) {
        auto since = context.times().inTable(context.device->use->start.at);
        if (row.assessment.paused) since += ", " + context.words.say("plain.paused");
        return since;
    }
    return "";
}

std::string verdictOf(const words::Context& context, const BoardRow& row) {
    const auto& found = row.assessment;
    if (row.inDoubt && found.verdict == Verdict::NotReady)
        return context.words.say("verdict.not_known");
    auto word = words::verdictWord(context.words, found.verdict);
    if (found.verdict == Verdict::Withdrawn && found.inUse)
        word += ", " + words::verdictWord(context.words, Verdict::InUse);
    return word;
}

// Not the place from before a use that began nobody said where.
std::string placeOf(const words::Context& context, const Shared& shared) {
    const auto& device = *context.device;
    if (!shared.unsaid.contains(device.serial)) return words::shown(device.location);
    if (device.location.empty()) return context.words.say("board.place_unsaid");
    return context.words.say("board.place_unsaid_last",
                             {{"place", words::shown(device.location)}});
}

BoardLine lineOf(const words::Context& context, const BoardRow& row, const Shared& shared) {
    const auto& device = *context.device;
    const auto& enrolment = device.enrolment;
    const auto name = enrolment.label ? *enrolment.label : enrolment.asset.value_or("");
    return {words::shown(device.serial),
            words::shown(name),
            words::shown(enrolment.model),
            placeOf(context, shared),
            row.assessment.group ? words::groupLabel(context, *row.assessment.group) : "",
            verdictOf(context, row),
            untilText(context, row),
            briefs(context, row, shared),
            againstUse(context, row, shared)};
}

// In the sections of both verdicts a unit that is held with a patient on it says the other.
std::vector<std::string> cells(const words::Context& context, BoardLine line, Verdict other,
                               bool isOfBoth) {
    if (isOfBoth) line.missing = words::verdictWord(context.words, other) + "; " + line.missing;
    return {std::move(line.serial), std::move(line.name),  std::move(line.model),
            std::move(line.place),  std::move(line.group), std::move(line.until),
            std::move(line.missing)};
}

constexpr std::size_t inUseSection = 1;

std::size_t sectionOf(const BoardRow& row) {
    switch (row.assessment.verdict) {
        case Verdict::Ready: return 0;
        case Verdict::InUse: return inUseSection;
        case Verdict::NotReady: return row.inDoubt ? 3 : 2;
        case Verdict::Withdrawn: return 4;
        case Verdict::Retired: break;
    }
    return 5;
}

std::vector<Section> makeSections(const words::Words& words) {
    const std::array<const char*, 6> verdicts{"ready",     "in_use",    "not_ready",
                                              "not_known", "withdrawn", "retired"};
    std::vector<Section> sections;
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
        const auto when = i == 0 ? "board.until" : "board.since";
        const auto what = i == 2 || i == 3 ? "board.missing" : "board.remarks";
        Table table({words.say("board.unit"), words.say("board.name"), words.say("board.model"),
                     words.say("board.place"), words.say("board.group"),
                     i < 2 ? words.say(when) : "", words.say(what)});
        sections.push_back({words.say("verdict." + std::string(verdicts[i])), std::move(table)});
    }
    return sections;
}

std::string parText(const Board& board, const words::Context& context) {
    const auto& words = context.words;
    Table table({words.say("board.par_heading"), ""});
    for (const auto& group : board.groups) {
        const int short_ = group.par ? *group.par - group.ready : 0;
        const auto key = !group.par   ? "board.par_none"
                         : short_ > 0 ? "board.par_short"
                                      : "board.par";
        table.add({words::groupLabel(context, group.group),
                   words.say(key, {{"ready", std::to_string(group.ready)},
                                   {"par", std::to_string(group.par.value_or(0))},
                                   {"short", std::to_string(short_)}})});
    }
    return table.text(usableWidth({}));
}

std::string sectionsText(const PlacedBoard& placed, const words::Words& words,
                         std::size_t width) {
    const auto& board = placed.board;
    auto sections = makeSections(words);
    const Shared shared(placed, words);
    const auto& common = shared.common;
    const auto add = [](Section& section, std::vector<std::string> row) {
        section.table.add(std::move(row));
        ++section.count;
    };
    for (const auto& row : board.rows) {
        const auto context = board.context(words, row);
        auto line = lineOf(context, row, shared);
        const bool isOfBoth =
            row.assessment.verdict == Verdict::Withdrawn && row.assessment.inUse;
        if (isOfBoth) {
            add(sections[inUseSection], cells(context, line, Verdict::Withdrawn, true));
            line.until.clear();  // there it has no title
            line.missing = line.againstUse;  // its checks are told above
        }
        add(sections[sectionOf(row)], cells(context, std::move(line), Verdict::InUse, isOfBoth));
    }
    std::vector<std::size_t> widths(sections.front().table.titles().size());
    for (const auto& section : sections) {
        if (section.count == 0) continue;
        const auto natural = section.table.naturalWidths();
        for (std::size_t i = 0; i < widths.size(); ++i) widths[i] = std::max(widths[i], natural[i]);
    }
    widths = fitted(widths, width - 2);
    std::string text;
    for (const auto& section : sections) {
        if (section.count == 0) continue;
        text += "\n" +
                words.say("board.count",
                          {{"verdict", section.title}, {"count", std::to_string(section.count)}}) +
                "\n" + section.table.text(widths, 2);
        if (!common.empty() && &section == &sections.front())
            text += wrapped(words.say("board.at_each_start", {{"checks", common}}), width, 2);
    }
    return text;
}

}  // namespace

std::vector<BoardLine> boardLines(const PlacedBoard& placed, const words::Words& words) {
    const Shared shared(placed, words);
    std::vector<BoardLine> lines;
    for (const auto& row : placed.board.rows)
        lines.push_back(lineOf(placed.board.context(words, row), row, shared));
    return lines;
}

std::vector<BoardLine> boardLines(const Board& board, const words::Words& words) {
    const PlacesUnsaid none;
    return boardLines(PlacedBoard{board, none}, words);
}

std::string atEachStart(const Board& board, const words::Words& words) {
    const auto common = commonStartChecks(board, words, Order(*board.state.rulebook));
    return common.empty() ? "" : words.say("board.at_each_start", {{"checks", common}});
}

std::string toText(const PlacedBoard& placed, const words::Words& words,
                   const TextOptions& options) {
    const auto& board = placed.board;
    const auto width = usableWidth(options);
    const auto context = board.context(words);
    std::string text = words.say("board.title") + "\n";
    for (const auto& line : headLines(context, board.provenance, board.groupAsked))
        text += wrapped(line, width);
    text += "\n" + parText(board, context);
    if (board.rows.empty()) text += "\n" + words.say("board.no_units") + "\n";
    text += sectionsText(placed, words, width);
    return text + "\n" + wrapped(words.say("caution.full"), width);
}

std::string toText(const Board& board, const words::Words& words, const TextOptions& options) {
    const PlacesUnsaid none;
    return toText(PlacedBoard{board, none}, words, options);
}

}  // namespace report
