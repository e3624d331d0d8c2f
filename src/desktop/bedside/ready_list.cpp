// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The units that are ready; see ready_list.h.
#include "desktop/bedside/ready_list.h"

#include "desktop/shell/text.h"
#include "desktop/theme/scroll_page.h"
#include "desktop/theme/text_label.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>
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

void clear(QLayout& layout) {
    while (auto* item = layout.takeAt(0)) {
        if (auto* inside = item->layout()) clear(*inside);
        if (auto* widget = item->widget()) widget->deleteLater();
        delete item;
    }
}

// What a unit takes with its two presses, in letters.
constexpr int lettersOfUnit = 56;

}  // namespace

ReadyList::ReadyList(const words::Words& words, QWidget* parent)
    : QWidget(parent), m_words(words) {
    m_head = textLabel({}, TextRole::Large);
    auto* inside = new QWidget;
    m_list = new QVBoxLayout(inside);
    m_list->setContentsMargins(0, 0, 8, 0);
    m_list->setSpacing(8);
    auto* scroll = scrollPage(inside);
    scroll->setAccessibleName(tr("Units that are ready"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_head);
    m_noUnits = makeNoUnits();
    layout->addWidget(m_noUnits);
    m_age = textLabel({}, TextRole::Strong);
    m_age->hide();
    layout->addWidget(m_age);
    m_atEachStart = textLabel({});
    layout->addWidget(m_atEachStart);
    layout->addWidget(scroll, 1);
    m_cautionText = shownText(words.say("caution.full"));
    m_cautionShort = shownText(words.say("caution.short"));
    m_caution = emphasisLabel(m_cautionText, TextRole::Quiet);
    layout->addWidget(m_caution);
}

QWidget* ReadyList::makeNoUnits() {
    auto* box = new QWidget;
    auto* layout = new QVBoxLayout(box);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(targetGap);
    layout->addWidget(textLabel(tr("No unit is enrolled in this logbook yet. Units are enrolled "
                                   "here, or later on the Fleet desk: typed, scanned, or from a "
                                   "list.")));
    auto* enrol = new QPushButton(tr("Enrol units"));
    enrol->setProperty("main", true);
    connect(enrol, &QPushButton::clicked, this, &ReadyList::enrolmentWanted);
    layout->addWidget(enrol, 0, Qt::AlignLeft);
    box->hide();
    return box;
}

void ReadyList::beginStart(const std::string& device) {
    m_starting.insert(device);
    if (const auto unit = m_units.find(device); unit != m_units.end())
        showStarting(device, *unit->second.start);
}

// Grey alone would not say whether it is kept.
void ReadyList::showStarting(const std::string& device, QPushButton& start) const {
    const bool isStarting = m_starting.contains(device);
    start.setEnabled(!isStarting);
    start.setText(isStarting ? tr("Not recorded yet …") : tr("Emergency start"));
}

void ReadyList::endStart(const std::string& device,
                         const std::optional<logbook::RecordName>& start) {
    m_starting.erase(device);
    if (start) {
        m_started.insert_or_assign(device, *start);
        m_sinceStart.start();
    }
    if (const auto unit = m_units.find(device); unit != m_units.end())
        showStarting(device, *unit->second.start);
    if (m_fleet) show(m_fleet);
}

bool ReadyList::hasJustMoved() const {
    constexpr qint64 settlesMs = 1500;
    return m_sinceStart.isValid() && !m_sinceStart.hasExpired(settlesMs);
}

// What is ready by that fleet, less what was started since it was read.
std::vector<std::size_t> ReadyList::offered(const FleetView& fleet) {
    std::erase_if(m_started, [&](const auto& started) {
        return !fleet.isBefore(started.second);
    });
    auto rows = readyRows(fleet);
    std::erase_if(rows, [&](std::size_t row) {
        const auto& device = fleet.board.rows[row].assessment.device;
        return m_started.contains(device);
    });
    return rows;
}

void ReadyList::show(const SharedFleetView& fleet) {
    const bool isSame = fleet == m_fleet && m_shown && !m_isOld && m_started.empty();
    if (isSame) return;
    m_fleet = fleet;
    m_isOld = true;
    if (isVisible()) showUnits();
}

void ReadyList::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (m_isOld) showUnits();
}

// Of a large fleet there are hundreds: what is shown already stays as it is.
void ReadyList::showUnits() {
    m_isOld = false;
    const auto& fleet = *m_fleet;
    const auto rows = offered(fleet);
    const auto still = shownText(report::atEachStart(fleet.board, m_words));
    m_noUnits->setVisible(fleet.board.rows.empty());
    m_head->setVisible(!fleet.board.rows.empty());
    m_atEachStart->setText(rows.empty() ? tr("Scan a unit, or type its number: an emergency start "
                                             "can be entered for any unit.")
                                        : still);
    std::vector<report::BoardLine> lines;
    for (const auto row : rows) lines.push_back(fleet.lines[row]);
    if (m_shown && *m_shown == lines) {
        placeTexts();
        return;
    }
    m_shown = std::move(lines);
    takeOut();
    auto before = std::exchange(m_units, {});
    m_head->setText(
        tr("%1 ready by record. Look at the unit before connecting.").arg(rows.size()));
    for (const auto row : rows) {
        const auto& group = fleet.lines[row].group;
        if (m_groups.empty() || m_groups.back().label != group) addGroup(group);
        addUnit(fleet, row, before);
    }
    for (const auto& [device, unit] : before) {
        unit.widget->hide();
        unit.widget->deleteLater();
    }
    m_stillAtEnd = textLabel(m_atEachStart->text());
    m_list->addWidget(m_stillAtEnd);
    m_cautionAtEnd = emphasisLabel(m_cautionText, TextRole::Quiet);
    m_list->addWidget(m_cautionAtEnd);
    m_list->addStretch();
    m_columns = 0;
    arrange();
    m_items.clear();  // of those that are gone
    orderTabs(rows);
    placeTexts();
}

void ReadyList::takeItems() {
    for (const auto& group : m_groups)
        while (auto* item = group.grid->takeAt(0)) m_items[item->widget()].reset(item);
}

// The units stay, without a place.
void ReadyList::takeOut() {
    takeItems();
    m_groups.clear();
    clear(*m_list);
}

// As they stand, whichever of them came last.
void ReadyList::orderTabs(const std::vector<std::size_t>& rows) const {
    QWidget* last = nullptr;
    for (const auto row : rows) {
        const auto& unit = m_units.at(m_fleet->board.rows[row].assessment.device);
        for (auto* button : {unit.open, unit.start}) {
            if (last != nullptr) setTabOrder(last, button);
            last = button;
        }
    }
}

bool ReadyList::hasRoomFor(int textHeight) const {
    constexpr int mostShare = 6;  // of the height
    return textHeight <= height() / mostShare;
}

int ReadyList::cautionHeight() {
    if (std::exchange(m_cautionMeasured, width()) != width()) {
        m_caution->setText(emphasised(m_cautionText));
        m_cautionHeight = m_caution->heightForWidth(width());
    }
    return m_cautionHeight;
}

void ReadyList::placeTexts() {
    const bool isBelow = hasRoomFor(cautionHeight());
    m_caution->setText(emphasised(isBelow ? m_cautionText : m_cautionShort));
    const bool isStill = !m_atEachStart->text().isEmpty();
    const bool isAbove = isStill && hasRoomFor(m_atEachStart->heightForWidth(width()));
    m_atEachStart->setVisible(isAbove);
    if (m_cautionAtEnd == nullptr) return;
    m_cautionAtEnd->setVisible(!isBelow);
    m_stillAtEnd->setText(m_atEachStart->text());
    m_stillAtEnd->setVisible(isStill && !isAbove);
}

void ReadyList::addGroup(const std::string& label) {
    m_list->addWidget(textLabel(shownText(label), TextRole::Strong));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(2 * targetGap);
    grid->setVerticalSpacing(targetGap);
    m_list->addLayout(grid);
    m_groups.push_back({label, grid});
}

void ReadyList::restyle() {
    m_head->setFont(fontFor(TextRole::Large));
    m_age->setFont(fontFor(TextRole::Strong));
    m_atEachStart->setFont(fontFor(TextRole::Plain));
    m_caution->setFont(fontFor(TextRole::Quiet));
    m_cautionMeasured = 0;
    m_shown.reset();
    if (m_fleet) show(m_fleet);
}

void ReadyList::showAge(const QString& sentence) {
    m_age->setText(sentence);
    m_age->setVisible(!sentence.isEmpty());
}

void ReadyList::addUnit(const FleetView& fleet, std::size_t row, Units& before) {
    const auto& line = fleet.lines[row];
    const auto& device = fleet.board.rows[row].assessment.device;
    const auto known = before.find(device);
    auto unit = Unit{};
    if (known != before.end() && known->second.line == line) {
        unit = known->second;
        before.erase(known);
    } else {
        unit = makeUnit(line, shownText(device));
    }
    showStarting(device, *unit.start);
    m_groups.back().units.push_back(unit.widget);
    m_units.insert_or_assign(device, std::move(unit));
}

ReadyList::Unit ReadyList::makeUnit(const report::BoardLine& line, const QString& serial) {
    Unit unit{line, new QWidget};
    auto* layout = new QHBoxLayout(unit.widget);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(targetGap);
    unit.open = new QPushButton(serial);
    unit.open->setAccessibleName(tr("Open unit %1").arg(serial));
    connect(unit.open, &QPushButton::clicked, this,
            [this, serial] {
                if (!hasJustMoved()) Q_EMIT unitWanted(serial);
            });
    layout->addWidget(unit.open);
    auto* texts = new QVBoxLayout;
    texts->setSpacing(0);
    texts->addWidget(textLabel(shownText(line.place), TextRole::Strong));
    texts->addWidget(textLabel(tr("%1, until %2").arg(shownText(line.model), shownText(line.until)),
                               TextRole::Quiet));
    // Ready by a permission, or with something to remark.
    if (!line.missing.empty())
        texts->addWidget(textLabel(shownText(line.missing), TextRole::Quiet));
    layout->addLayout(texts, 1);
    unit.start = new QPushButton(tr("Emergency start"));
    unit.start->setProperty("quiet", true);
    unit.start->setAccessibleName(tr("Emergency start of unit %1").arg(serial));
    connect(unit.start, &QPushButton::clicked, this,
            [this, serial] {
                if (!hasJustMoved()) Q_EMIT emergencyWanted(serial);
            });
    layout->addWidget(unit.start);
    return unit;
}

void ReadyList::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
    placeTexts();
}

void ReadyList::arrange() {
    const int columns =
        std::max(1, width() / (m_head->fontMetrics().averageCharWidth() * lettersOfUnit * 3 / 4));
    if (std::exchange(m_columns, columns) == columns) return;
    takeItems();
    for (auto& [label, grid, units] : m_groups) {
        for (int column = 0; column < grid->columnCount(); ++column)
            grid->setColumnStretch(column, column < columns ? 1 : 0);
        for (int i = 0; i < static_cast<int>(units.size()); ++i) {
            auto* unit = units[static_cast<std::size_t>(i)];
            if (auto item = m_items.extract(unit)) {
                grid->addItem(item.mapped().release(), i / columns, i % columns);
            } else {
                grid->addWidget(unit, i / columns, i % columns);
            }
        }
        for (int column = 0; column < columns; ++column) grid->setColumnStretch(column, 1);
    }
}

}  // namespace desktop
