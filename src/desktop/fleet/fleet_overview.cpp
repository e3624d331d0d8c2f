// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is seen first; see fleet_overview.h.
#include "desktop/fleet/fleet_overview.h"

#include "desktop/shell/clock_sentence.h"
#include "desktop/shell/press_row.h"
#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/appearance.h"
#include "words/context.h"

#include <QFontMetrics>
#include <QGridLayout>
#include <QLabel>
#include <QVBoxLayout>
#include <cstdint>
#include <utility>

namespace desktop {

namespace {

constexpr std::size_t shownSoonest = 3;
constexpr std::size_t shownDoubts = 4;
constexpr std::int64_t dayMs = 86'400'000;
constexpr int lettersOfPanel = 30;  // that a panel is wide at least, beside two others

words::Context contextAt(const FleetView& view, const words::Words& words,
                         logbook::Instant now) {
    return {words, view.board.state, nullptr, now, {}, {}};
}

}  // namespace

FleetOverview::FleetOverview(const words::Words& words, QWidget* parent)
    : QWidget(parent), m_words(words) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(8);
    m_doubts = textLabel({});
    m_doubts->setProperty("banner", true);
    m_doubts->setAccessibleName(tr("What is in doubt"));
    m_doubts->hide();
    m_age = textLabel({});
    m_panels = new QWidget;
    m_grid = new QGridLayout(m_panels);
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setHorizontalSpacing(targetGap);
    m_grid->setVerticalSpacing(6);
    layout->addWidget(m_age);
    layout->addWidget(m_doubts);
    layout->addWidget(m_panels);
    m_caution = textLabel(shownText(words.say("caution.short")));
    m_caution->hide();
    layout->addWidget(m_caution);
    m_groups = addPanel(tr("Ready against par"), new WrapLayout(WrapLayout::Manner::Spread));
    m_lapses = addPanel(tr("Next to lapse"), new QVBoxLayout);
    m_soonest = addPanel(tr("Soonest ready"), new QVBoxLayout);
    m_panels->hide();
    arrange();
}

FleetOverview::Panel FleetOverview::addPanel(const QString& title, QLayout* rows) {
    auto* box = new QWidget;
    auto* layout = new QVBoxLayout(box);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(4);
    rows->setSpacing(6);
    auto* remark = textLabel({});
    auto* head = textLabel(title, TextRole::Strong);
    layout->addWidget(head);
    layout->addLayout(rows);
    layout->addWidget(remark);
    layout->addStretch();
    return {box, head, rows, remark};
}

void FleetOverview::arrange() {
    for (const auto* panel : {&m_groups, &m_lapses, &m_soonest}) m_grid->removeWidget(panel->box);
    m_grid->addWidget(m_groups.box, 0, 0, 1, m_isNarrow ? 2 : 1);
    m_grid->addWidget(m_lapses.box, m_isNarrow ? 1 : 0, m_isNarrow ? 0 : 1);
    m_grid->addWidget(m_soonest.box, m_isNarrow ? 1 : 0, m_isNarrow ? 1 : 2);
    for (int column = 0; column < 3; ++column)
        m_grid->setColumnStretch(column, m_isNarrow ? (column < 2 ? 1 : 0) : (column == 0 ? 5 : 4));
    m_groups.head->setVisible(!m_isNarrow);  // its rows say it themselves
    for (const auto* panel : {&m_lapses, &m_soonest})
        for (auto* row : panel->presses) row->setBrief(m_isNarrow);
}

void FleetOverview::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    const int letter = QFontMetrics(fontFor(TextRole::Plain)).averageCharWidth();
    const bool isNarrow = width() < 3 * lettersOfPanel * letter;
    if (std::exchange(m_isNarrow, isNarrow) != isNarrow) arrange();
}

PressRow* FleetOverview::rowOf(Panel& panel, std::size_t index) {
    while (panel.presses.size() <= index) {
        auto* row = new PressRow;
        const auto at = panel.presses.size();
        const bool isGroup = &panel == &m_groups;
        row->setCheckable(isGroup);
        const bool isLapse = &panel == &m_lapses;
        connect(row, &QPushButton::clicked, this, [this, at, isGroup, isLapse] {
            if (isGroup) {
                const auto& key = m_groupKeys[at];
                Q_EMIT groupPressed(key == m_chosen ? QString() : key);
            } else {
                Q_EMIT unitPressed(isLapse ? m_lapsing[at] : m_readying[at]);
            }
        });
        row->setBrief(m_isNarrow && !isGroup);
        panel.rows->addWidget(row);
        panel.presses.push_back(row);
    }
    panel.presses[index]->show();
    return panel.presses[index];
}

void FleetOverview::hideFrom(Panel& panel, std::size_t index) {
    for (; index < panel.presses.size(); ++index) panel.presses[index]->hide();
    panel.remark->setVisible(!panel.remark->text().isEmpty());
}

void FleetOverview::show(const Shown& shown) {
    m_panels->show();
    showAge(shown);
    showDoubts(shown);
    showGroups(shown.table.facts);
    showLapses(shown);
    showSoonest(shown);
}

void FleetOverview::showNothing(const QString& why) {
    m_age->setText(why);
    m_caution->hide();
    m_doubts->hide();
    m_panels->hide();
}

void FleetOverview::chooseGroup(const QString& key) {
    m_chosen = key;
    for (std::size_t i = 0; i < m_groupKeys.size(); ++i)
        m_groups.presses[i]->setChecked(m_groupKeys[i] == key);
}

void FleetOverview::showAge(const Shown& shown) {
    const auto at = askedText(shown.view, m_words, shown.now);
    const auto span = std::max(logbook::Duration{}, shown.now - shown.view.readAt);
    const auto age = shownText(words::duration(m_words, span));
    const bool isOld = span >= agesAfter;
    const auto read = span.ms < 1000 ? tr("As of %1, read just now.").arg(at)
                      : !isOld       ? tr("As of %1, read %2 ago.").arg(at, age)
                               : tr("As of %1. The logbook could not be read for %2: what was "
                                    "entered since is not shown.")
                                     .arg(at, age);
    // Where room is scarce what is due goes before the caution.
    m_age->setText(m_isNarrow ? read : read + QLatin1Char(' ') + m_caution->text());
    m_caution->setVisible(m_isNarrow);
    m_age->setFont(fontFor(isOld ? TextRole::Strong : TextRole::Plain));
}

void FleetOverview::showDoubts(const Shown& shown) {
    const auto& facts = shown.table.facts;
    QStringList lines;
    if (!shown.readOnly.isEmpty()) lines << shown.readOnly;
    for (const auto& doubt : facts.doubts) {
        if (static_cast<std::size_t>(lines.size()) == shownDoubts) {
            lines << tr("and %1 more").arg(facts.doubts.size() - shownDoubts);
            break;
        }
        lines << doubt.text;
    }
    m_doubts->setText(lines.join(QLatin1Char('\n')));
    m_doubts->setVisible(!lines.isEmpty());
}

void FleetOverview::showGroups(const FleetFacts& facts) {
    m_groupKeys.clear();
    for (const auto& group : facts.groups) {
        auto* row = rowOf(m_groups, m_groupKeys.size());
        m_groupKeys.push_back(group.key);
        const int lacking = group.par.value_or(0) - group.ready;
        const words::Gaps gaps{{"ready", std::to_string(group.ready)},
                               {"par", std::to_string(group.par.value_or(0))},
                               {"short", std::to_string(lacking)}};
        const auto* key = !group.par     ? "board.par_none"
                          : lacking > 0 ? "board.par_short"
                                        : "board.par";
        row->say(group.label, shownText(m_words.say(key, gaps)));
        row->setEdge(!group.par     ? std::nullopt
                     : lacking > 0 ? std::optional(colours().notReady)
                                   : std::optional(colours().ready));
    }
    chooseGroup(m_chosen);
    hideFrom(m_groups, m_groupKeys.size());
}

// Between a unit and its time.
QString FleetOverview::gap() const {
    return m_isNarrow ? QStringLiteral(" ") : QStringLiteral("  ");
}

// "14:25, in 12 min". What is promised is told by the next whole minute.
QString FleetOverview::ahead(const Shown& shown, logbook::Instant at, bool whole) const {
    const auto context = contextAt(shown.view, m_words, shown.now);
    const auto told = whole ? words::wholeMinute(at) : at;
    const auto clock = shownText(context.times().time(told));
    const auto span = told - shown.now;
    if (m_isNarrow && span.ms >= dayMs) return clock;  // it has its day
    if (span.ms <= 0) return tr("%1, now").arg(clock);
    return tr("%1, in %2").arg(
        clock, shownText(whole ? words::wait(m_words, span) : words::duration(m_words, span)));
}

void FleetOverview::showLapses(const Shown& shown) {
    m_lapsing.clear();
    for (const auto& lapse : shown.table.facts.lapses) {
        auto* row = rowOf(m_lapses, m_lapsing.size());
        m_lapsing.push_back(lapse.serial);
        row->say(lapse.serial + gap() + ahead(shown, lapse.at, false), lapse.where);
    }
    m_lapses.remark->setText(
        m_lapsing.empty() ? tr("No unit that is ready stops being so by itself.") : QString());
    hideFrom(m_lapses, m_lapsing.size());
}

void FleetOverview::showSoonest(const Shown& shown) {
    m_readying.clear();
    for (const auto& way : shown.soonest.soonest(shownSoonest)) {
        auto* row = rowOf(m_soonest, m_readying.size());
        m_readying.push_back(way.serial);
        row->say(way.serial + gap() + ahead(shown, way.readyAt, true), way.where);
    }
    QString remark;
    const int waiting = shown.soonest.waiting();
    if (waiting > 0) {
        remark = m_readying.empty() ? tr("Working it out: %1 units to go.").arg(waiting)
                                    : tr("Working it out for %1 more units.").arg(waiting);
    } else if (m_readying.empty()) {
        remark = shown.table.facts.notReady == 0
                     ? tr("There is no unit that could be made ready.")
                     : tr("No unit that is not ready can be made so at the bedside.");
    }
    m_soonest.remark->setText(remark);
    hideFrom(m_soonest, m_readying.size());
}

}  // namespace desktop
