// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The history; see history_panel.h.
#include "desktop/bedside/history_panel.h"

#include "desktop/bedside/history_delegate.h"
#include "desktop/bedside/history_model.h"
#include "desktop/bedside/look_back_sheet.h"
#include "desktop/bedside/record_sheet.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrap_layout.h"

#include <QButtonGroup>
#include <QLabel>
#include <QListView>
#include <QPushButton>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

HistoryPanel::HistoryPanel(PanelTools tools, QWidget* parent) : UnitPanel(tools, parent) {
    m_model = new HistoryModel(this);
    m_list = new QListView;
    m_list->setModel(m_model);
    m_list->setItemDelegate(new HistoryDelegate(m_list));
    m_list->setResizeMode(QListView::Adjust);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setMinimumHeight(targetSize);  // it scrolls; what chooses in it is never cut
    m_list->setAccessibleName(tr("Entries on this unit, latest first"));
    m_older = new QLabel;
    m_older->setWordWrap(true);
    m_older->setFont(fontFor(TextRole::Quiet));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(makeFilters());
    layout->addWidget(m_list, 1);
    layout->addWidget(m_older);
    connect(m_list, &QListView::clicked, this, &HistoryPanel::openRecord);
    connect(m_list, &QListView::activated, this, &HistoryPanel::openRecord);
}

QWidget* HistoryPanel::makeFilters() {
    auto* row = new QWidget;
    auto* layout = new WrapLayout(WrapLayout::Manner::Packed, row);
    auto* sorts = new QButtonGroup(row);
    const auto add = [&](const QString& says, std::optional<report::EntrySort> sort) {
        auto* button = new QPushButton(says);
        button->setCheckable(true);
        button->setChecked(!sort);
        button->setAccessibleName(tr("Show: %1").arg(says));
        sorts->addButton(button);
        layout->addWidget(button);
        connect(button, &QPushButton::clicked, this, [this, sort] { m_model->showSort(sort); });
    };
    using report::EntrySort;
    add(tr("All"), {});
    add(tr("Checks"), EntrySort::Check);
    add(tr("Set-up"), EntrySort::SetUp);
    add(tr("Use"), EntrySort::Use);
    add(tr("Trouble"), EntrySort::Trouble);
    add(tr("Notes"), EntrySort::Other);
    auto* back = new QPushButton(tr("Look back …"));
    back->setProperty("quiet", true);
    connect(back, &QPushButton::clicked, this, &HistoryPanel::lookBack);
    layout->addWidget(back);
    return row;
}

void HistoryPanel::show(const SharedUnitView& unit) {
    const bool isOther =
        !m_unit || m_unit->bedside.identity.device != unit->bedside.identity.device;
    m_unit = unit;
    m_isUnread = true;
    // What was done to another unit is never seen below the name of this one.
    if (isOther) {
        m_isOther = true;
        m_model->show(std::make_shared<const report::History>());
        m_older->hide();
    }
    if (isVisible()) read();
}

void HistoryPanel::showEvent(QShowEvent* event) {
    UnitPanel::showEvent(event);
    if (m_isUnread) read();
}

// Only while somebody looks at it: it may look through the text of all records.
void HistoryPanel::read() {
    m_isUnread = false;
    workplace().read(
        [unit = m_unit, log = m_log](const auto& surroundings, const auto& file) {
            using Shared = std::shared_ptr<const report::History>;
            const auto& device = unit->bedside.identity.device;
            return log->of(surroundings, file, *unit->fleet->standing, device)
                .map([&](const station::WholeStanding& standing) {
                    return Shared(std::make_shared<const report::History>(
                        station::history(surroundings, standing, device)));
                });
        },
        this, [this, unit = m_unit](const auto& history) {
            if (unit == m_unit) take(history);
        },
        Background::Urgency::Later);
}

void HistoryPanel::take(
    const station::Result<std::shared_ptr<const report::History>>& history) {
    if (!history) {
        sayUnread(history.error());
        return;
    }
    const auto older = (*history)->older;
    m_older->setVisible(older > 0);
    m_older->setText(
        tr("%1 older entries are not shown here. Look back, or export them.").arg(older));
    m_model->show(*history);
    if (std::exchange(m_isOther, false)) m_list->scrollToTop();
}

// What was read before stays.
void HistoryPanel::sayUnread(const station::Problem& problem) {
    m_older->setText(tr("The entries on this unit could not be read now: not all are shown.") +
                     QLatin1Char('\n') + problemText(problem));
    m_older->show();
}

void HistoryPanel::openRecord(const QModelIndex& index) {
    if (!sheets().isEmpty()) return;
    sheets().put(new RecordSheet(tools().desk, {m_model->lineAt(index.row()),
                                             unitLine(m_unit->bedside.identity)}));
}

void HistoryPanel::lookBack() {
    if (m_unit) sheets().put(new LookBackSheet(tools().desk, m_unit->bedside.identity.device));
}

}  // namespace desktop
