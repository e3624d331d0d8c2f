// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The table of units; see unit_table.h.
#include "desktop/fleet/unit_table.h"

#include "desktop/fleet/chip_delegate.h"
#include "desktop/fleet/fleet_filter.h"
#include "desktop/theme/appearance.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QSettings>
#include <algorithm>

namespace desktop {

namespace {

// Those whose widths a person sets; what is missing takes the rest.
constexpr FleetRow::Column sized[] = {FleetRow::Unit,  FleetRow::Name,    FleetRow::Model,
                                      FleetRow::Place, FleetRow::Group,   FleetRow::Verdict,
                                      FleetRow::Until};

// Nobody who types the beginning of a serial presses Enter so soon without having looked; a scanner
// that was slowed down does.
constexpr qint64 enterAfterMs = 1500;

QSettings settings() {
    return {QSettings::IniFormat, QSettings::UserScope, QStringLiteral("airmuster"),
            QStringLiteral("window")};
}

QString keyOf(int column) {
    return QStringLiteral("fleet/width-%1-at-%2").arg(column).arg(appearance().textPercent);
}

}  // namespace

UnitTable::UnitTable(FleetFilter* units, QWidget* parent) : QTableView(parent), m_units(units) {
    setModel(units);
    setAccessibleName(tr("All units"));
    setSelectionBehavior(SelectRows);
    setSelectionMode(SingleSelection);
    setTabKeyNavigation(false);
    setWordWrap(false);
    setShowGrid(false);
    setAlternatingRowColors(true);
    setEditTriggers(NoEditTriggers);
    setHorizontalScrollMode(ScrollPerPixel);
    setItemDelegateForColumn(FleetRow::Verdict,
                             new ChipDelegate(FleetModel::VerdictRole, this));
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    auto* head = horizontalHeader();
    head->setSectionsClickable(true);
    head->setHighlightSections(false);
    head->setResizeContentsPrecision(500);
    head->setMinimumHeight(targetSize);
    fitRows();
    setSortingEnabled(true);
    sortByColumn(FleetRow::Verdict, Qt::AscendingOrder);
    connect(head, &QHeaderView::sectionResized, this,
            [this](int column, int, int width) { keepWidth(column, width); });
    const auto press = [this](const QModelIndex& index) {
        Q_EMIT unitPressed(m_units->rowAt(index).serial);
    };
    connect(this, &QTableView::clicked, this, press);
    connect(this, &QTableView::activated, this, press);
}

void UnitTable::fitRows() {
    verticalHeader()->setDefaultSectionSize(fontMetrics().height() + 12);
    setMinimumHeight(targetSize + 6 * verticalHeader()->defaultSectionSize());
}

// The size of text may be changed while it is looked at.
void UnitTable::changeEvent(QEvent* event) {
    QTableView::changeEvent(event);
    if (event->type() != QEvent::FontChange || !m_isMeasured) return;
    fitRows();
    forgetWidths();
    measureColumns();
}

void UnitTable::measureColumns() {
    if (m_isMeasured || m_units->rowCount() == 0) return;
    m_isMeasured = true;
    m_isFitting = true;
    const auto kept = settings();
    for (const int column : sized) {
        const int most = fontMetrics().averageCharWidth() * 26;
        resizeColumnToContents(column);
        const int natural = std::min(columnWidth(column) + 8, most);
        setColumnWidth(column, kept.value(keyOf(column), natural).toInt());
    }
    m_isFitting = false;
    fitColumns();
}

void UnitTable::forgetWidths() {
    m_isMeasured = false;
}

int UnitTable::least() const {
    return fontMetrics().averageCharWidth() * 24;
}

void UnitTable::fitColumns() {
    if (!m_isMeasured) return;
    m_isFitting = true;
    int taken = 0;
    for (const int column : sized) {
        setColumnHidden(column, false);
        taken += columnWidth(column);
    }
    for (const int column : {FleetRow::Model, FleetRow::Name, FleetRow::Group, FleetRow::Until}) {
        if (taken + least() <= viewport()->width()) break;
        taken -= columnWidth(column);
        setColumnHidden(column, true);
    }
    setColumnWidth(FleetRow::Missing, std::max(least(), viewport()->width() - taken));
    m_isFitting = false;
}

void UnitTable::keepWidth(int column, int width) {
    if (m_isFitting || !m_isMeasured || column == FleetRow::Missing || width <= 0) return;
    settings().setValue(keyOf(column), width);
    fitColumns();
}

// A code that comes too slowly to be known as a scan goes to a row like what somebody types; the
// Enter at its end must open none.
bool UnitTable::endsCharacters(const QKeyEvent& key) const {
    if (!m_sinceCharacter.isValid()) return false;
    const bool isTold = key.timestamp() != 0 && m_characterPressed != 0;
    const bool isStamped = isTold && key.timestamp() >= m_characterPressed;
    const auto since = isStamped ? static_cast<qint64>(key.timestamp() - m_characterPressed)
                                 : m_sinceCharacter.elapsed();
    return since < enterAfterMs;
}

void UnitTable::keyPressEvent(QKeyEvent* event) {
    const bool isEnter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    const auto text = event->text();
    if (isEnter) {
        const bool isEnd = endsCharacters(*event);
        m_sinceCharacter.invalidate();
        if (isEnd) return;
    } else if (!text.isEmpty() && text.front().isPrint()) {
        m_sinceCharacter.start();
        m_characterPressed = event->timestamp();
    } else if (!text.isEmpty() || event->key() < Qt::Key_Shift ||
               event->key() > Qt::Key_ScrollLock) {
        m_sinceCharacter.invalidate();  // an arrow, not Shift: the row was chosen by it
    }
    QTableView::keyPressEvent(event);
}

void UnitTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    fitColumns();
}

void UnitTable::sortByNext() {
    int column = horizontalHeader()->sortIndicatorSection();
    do column = (column + 1) % FleetRow::ColumnCount;
    while (isColumnHidden(column));
    sortByColumn(column, Qt::AscendingOrder);
}

void UnitTable::sortOtherWay() {
    const auto* head = horizontalHeader();
    const bool isUp = head->sortIndicatorOrder() == Qt::AscendingOrder;
    sortByColumn(head->sortIndicatorSection(), isUp ? Qt::DescendingOrder : Qt::AscendingOrder);
}

void UnitTable::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QTableView::currentChanged(current, previous);
    Q_EMIT unitMarked(current.isValid() ? m_units->rowAt(current).serial : QString());
}

}  // namespace desktop
