// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet in words; see fleet_rows.h.
#include "desktop/fleet/fleet_rows.h"

#include "desktop/shell/clock_sentence.h"
#include "desktop/shell/large_value.h"
#include "desktop/shell/text.h"
#include "words/finding_words.h"
#include "words/shown.h"

#include <QCoreApplication>
#include <algorithm>
#include <limits>

namespace desktop {

namespace {

using rules::Verdict;

constexpr std::size_t shownLapses = 3;
constexpr qsizetype shownInUse = 3;

QString tr(const char* text) {
    return QCoreApplication::translate("desktop", text);
}

QString listOf(const words::Words& words, const std::vector<std::string>& items) {
    return shownText(words.all(items));
}

// Ready first, then what can be made ready.
int rankOf(const report::BoardRow& row) {
    switch (row.assessment.verdict) {
        case Verdict::Ready: return 0;
        case Verdict::NotReady: return row.inDoubt ? 2 : 1;
        case Verdict::InUse: return 3;
        case Verdict::Withdrawn: return 4;
        case Verdict::Retired: break;
    }
    return 5;
}

// How much is missing, or stands against a use; a remark on any other unit comes before none.
qlonglong missingCount(const rules::Assessment& found, const QString& told) {
    if (found.verdict != Verdict::NotReady && !found.inUse) return told.isEmpty() ? 0 : 1;
    return 1 + std::count_if(found.findings.begin(), found.findings.end(), [](const auto& finding) {
        return finding.blocking() == rules::Blocks::Yes;
    });
}

// What stands against a unit in use goes before since when it is: a row is one line.
QString remarkOf(const report::BoardRow& row, const report::BoardLine& line) {
    const auto missing = shownText(line.missing);
    if (!row.assessment.inUse || line.until.empty()) return missing;
    const auto since = tr("since %1").arg(shownText(line.until));
    return missing.isEmpty() ? since : missing + QStringLiteral("; ") + since;
}

FleetRow rowOf(const report::BoardRow& row, const report::BoardLine& line,
               const rules::Device& device) {
    const auto& found = row.assessment;
    const bool isReady = found.verdict == Verdict::Ready;
    FleetRow made{shownText(found.device), found.verdict, shownText(found.group.value_or(""))};
    made.isInUse = found.inUse;
    made.texts = {shownText(line.serial), shownText(line.name),    shownText(line.model),
                  shownText(line.place),  shownText(line.group),   shownText(line.verdict),
                  remarkOf(row, line),    isReady ? shownText(line.until) : QString()};
    QStringList searched;
    for (int column = 0; column < FleetRow::ColumnCount; ++column) {
        const auto& text = made.texts[static_cast<std::size_t>(column)];
        made.sortKeys[static_cast<std::size_t>(column)] = naturalKey(text);
        searched << text;
    }
    searched << shownText(words::shown(device.enrolment.asset.value_or("")));
    constexpr auto never = std::numeric_limits<qlonglong>::max();
    made.sortKeys[FleetRow::Verdict] = rankOf(row);
    made.sortKeys[FleetRow::Missing] = missingCount(found, made.texts[FleetRow::Missing]);
    made.sortKeys[FleetRow::Until] =
        !isReady ? never : found.readyUntil ? qlonglong{found.readyUntil->ms} : never - 1;
    made.folded = searched.join(QLatin1Char('\n')).toLower();
    return made;
}

std::vector<LapseFact> lapsesOf(const FleetView& view) {
    std::vector<std::size_t> order;
    const auto& rows = view.board.rows;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].assessment.verdict == Verdict::Ready && rows[i].assessment.readyUntil)
            order.push_back(i);
    const auto middle = order.begin() + static_cast<std::ptrdiff_t>(
                                            std::min(shownLapses, order.size()));
    std::partial_sort(order.begin(), middle, order.end(), [&](auto a, auto b) {
        const auto at = [&](auto i) { return rows[i].assessment.readyUntil->ms; };
        return at(a) != at(b) ? at(a) < at(b) : a < b;
    });
    std::vector<LapseFact> lapses;
    for (auto each = order.begin(); each != middle; ++each)
        lapses.push_back({shownText(rows[*each].assessment.device), whereOf(view.lines[*each]),
                          *rows[*each].assessment.readyUntil});
    return lapses;
}

// The units with such a finding, in the order of the board.
template <class Matches>
std::vector<std::string> unitsWith(const report::Board& board, Matches matches) {
    std::vector<std::string> units;
    for (const auto& row : board.rows) {
        const auto& findings = row.assessment.findings;
        if (row.assessment.verdict != Verdict::Retired &&
            std::any_of(findings.begin(), findings.end(), matches))
            units.push_back(words::shown(row.assessment.device));
    }
    return units;
}

// Stations that were last heard too long ago, in one line.
void addStale(std::vector<DoubtFact>& doubts, const FleetView& view, const words::Words& words) {
    const auto context = view.board.context(words);
    const auto& provenance = view.board.provenance;
    std::vector<std::string> stations;
    for (const auto& station : provenance.stations) {
        if (!station.heard || context.asked - *station.heard <= provenance.staleAfter) continue;
        const auto when = shownText(context.times().lately(*station.heard));
        stations.push_back(plainText(tr("%1 (%2)").arg(shownText(station.station), when)));
    }
    if (stations.empty()) return;
    const auto span = shownText(words::duration(words, provenance.staleAfter));
    doubts.push_back({tr("Not heard for more than %1: %2. Entries made there since are not shown.")
                          .arg(span, listOf(words, stations)),
                      true});
}

// A patient is on a unit that something is wrong with: that is seen at once, whatever else is.
void addInUse(std::vector<DoubtFact>& doubts, const FleetView& view) {
    QStringList units;
    int more = 0;
    for (const auto& line : view.lines) {
        if (line.againstUse.empty()) continue;
        if (units.size() == shownInUse) {
            ++more;
        } else {
            units << tr("%1 (%2)").arg(shownText(line.serial), shownText(line.againstUse));
        }
    }
    if (more > 0) units << tr("and %1 more").arg(more);
    if (units.isEmpty()) return;
    doubts.push_back({tr("In use, although something stands against it: %1.")
                          .arg(units.join(QStringLiteral("; ")))});
}

std::vector<DoubtFact> doubtsOf(const FleetView& view, const words::Words& words) {
    std::vector<DoubtFact> doubts;
    for (const auto& problem : view.board.provenance.problems)
        doubts.push_back({shownText(words.say("board.problem", {{"problem", problem}})), true});
    if (const auto later = laterSentence(view, words); !later.isEmpty())
        doubts.push_back({later, true});
    addInUse(doubts, view);
    addStale(doubts, view, words);
    const auto uncertain = unitsWith(view.board, [](const rules::Finding& finding) {
        return finding.reason == "order_uncertain";
    });
    if (!uncertain.empty())
        doubts.push_back({tr("Entries of two stations lie so close that which came first is not "
                             "certain: %1.")
                              .arg(listOf(words, uncertain))});
    const auto unseen = unitsWith(view.board, [](const rules::Finding& finding) {
        return finding.code == rules::FindingCode::Unseen;
    });
    if (!unseen.empty())
        doubts.push_back({tr("Nothing recorded for a long time; look at the unit first: %1.")
                              .arg(listOf(words, unseen))});
    return doubts;
}

FleetFacts factsOf(const FleetView& view, const words::Words& words) {
    FleetFacts facts;
    const auto context = view.board.context(words);
    for (const auto& group : view.board.groups)
        facts.groups.push_back({shownText(group.group),
                                shownText(words::groupLabel(context, group.group)), group.ready,
                                group.par});
    facts.lapses = lapsesOf(view);
    facts.doubts = doubtsOf(view, words);
    facts.atEachStart = shownText(report::atEachStart(view.board, words));
    for (const auto& row : view.board.rows) {
        const auto verdict = row.assessment.verdict;
        ++facts.counts[static_cast<std::size_t>(verdict)];
        if (row.assessment.inUse && verdict != Verdict::InUse)
            ++facts.counts[static_cast<std::size_t>(Verdict::InUse)];
        if (row.assessment.verdict == Verdict::NotReady && !row.inDoubt) ++facts.notReady;
    }
    return facts;
}

}  // namespace

QString naturalKey(const QString& text) {
    static const auto zeros = QStringLiteral("000000000000");
    QString key;
    QString figures;
    const auto flush = [&] {
        if (figures.isEmpty()) return;
        key += QStringView(zeros).left(std::max<qsizetype>(0, zeros.size() - figures.size()));
        key += figures;
        figures.clear();
    };
    for (const auto letter : text.toLower()) {
        if (letter >= QLatin1Char('0') && letter <= QLatin1Char('9')) {
            figures += letter;
        } else {
            flush();
            key += letter;
        }
    }
    flush();
    return key;
}

QString whereOf(const report::BoardLine& line) {
    QStringList parts;
    for (const auto* part : {&line.place, &line.group})
        if (!part->empty()) parts << shownText(*part);
    return parts.join(QStringLiteral(", "));
}

SharedFleetTable makeFleetTable(const FleetView& view, const words::Words& words) {
    const auto table = makeLarge<FleetTable>();
    const auto& rows = view.board.rows;
    table->rows.reserve(rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i)
        table->rows.push_back(rowOf(rows[i], view.lines[i],
                                    *view.board.state.device(rows[i].assessment.device)));
    table->facts = factsOf(view, words);
    return table;
}

}  // namespace desktop
