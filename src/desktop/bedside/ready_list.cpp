// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The units that are ready; see ready_list.h.
#include "desktop/bedside/ready_list.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>
#include <vector>

namespace desktop {

namespace {

// By group, then place, then serial; what is in doubt is not ready.
std::vector<std::size_t> readyRows(const FleetView& fleet) {
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < fleet.lines.size(); ++i) {
        const auto& row = fleet.board.rows[i];
        if (row.assessment.verdict == rules::Verdict::Ready && !row.inDoubt) rows.push_back(i);
    }
    std::ranges::stable_sort(rows, {}, [&](std::size_t i) {
        const auto& line = fleet.lines[i];
        return std::tie(line.group, line.place, line.serial);
    });
    return rows;
}

QLabel* makeText(const QString& text, TextRole role) {
    auto* label = new QLabel(text);
    label->setTextFormat(Qt::PlainText);
    label->setFont(fontFor(role));
    label->setWordWrap(true);
    return label;
}

void clear(QLayout& layout) {
    while (auto* item = layout.takeAt(0)) {
        if (auto* widget = item->widget()) widget->deleteLater();
        delete item;
    }
}

}  // namespace

ReadyList::ReadyList(QWidget* parent) : QWidget(parent) {
    m_head = makeText({}, TextRole::Large);
    auto* inside = new QWidget;
    m_units = new QVBoxLayout(inside);
    m_units->setSpacing(targetGap);
    auto* scroll = new QScrollArea;
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setAccessibleName(tr("Units that are ready"));
    scroll->setWidget(inside);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(
        makeText(tr("Scan a unit, or type its serial or asset number above."), TextRole::Large));
    layout->addWidget(m_head);
    layout->addWidget(scroll, 1);
}

void ReadyList::show(const SharedFleetView& fleet) {
    const auto rows = readyRows(*fleet);
    std::vector<report::BoardLine> lines;
    for (const auto row : rows) lines.push_back(fleet->lines[row]);
    if (m_shown && *m_shown == lines) return;  // what has the focus keeps it
    m_shown = std::move(lines);
    clear(*m_units);
    m_head->setText(
        tr("%1 ready by record. Look at the unit before connecting.").arg(rows.size()));
    std::string group;
    for (const auto row : rows) {
        const auto& line = fleet->lines[row];
        if (line.group != group)
            m_units->addWidget(makeText(shownText(line.group), TextRole::Strong));
        group = line.group;
        addUnit(*fleet, row);
    }
    m_units->addStretch();
}

void ReadyList::addUnit(const FleetView& fleet, std::size_t row) {
    const auto& line = fleet.lines[row];
    const auto serial = shownText(fleet.board.rows[row].assessment.device);
    auto* box = new QWidget;
    auto* layout = new QHBoxLayout(box);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(targetGap);
    auto* open = new QPushButton(serial);
    open->setAccessibleName(tr("Open unit %1").arg(serial));
    connect(open, &QPushButton::clicked, this, [this, serial] { Q_EMIT unitWanted(serial); });
    layout->addWidget(open);
    layout->addWidget(makeText(shownText(line.place), TextRole::Strong), 2);
    layout->addWidget(makeText(shownText(line.model), TextRole::Plain), 1);
    layout->addWidget(makeText(tr("until %1").arg(shownText(line.until)), TextRole::Quiet), 1);
    auto* start = new QPushButton(tr("Emergency start"));
    start->setAccessibleName(tr("Emergency start of unit %1").arg(serial));
    connect(start, &QPushButton::clicked, this, [this, serial] { Q_EMIT emergencyWanted(serial); });
    layout->addWidget(start);
    m_units->addWidget(box);
}

}  // namespace desktop
