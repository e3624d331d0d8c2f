// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bedside desk; see bedside_desk.h.
#include "desktop/bedside/bedside_desk.h"

#include "desktop/bedside/acts_panel.h"
#include "desktop/bedside/entry_strip.h"
#include "desktop/bedside/history_panel.h"
#include "desktop/bedside/ready_list.h"
#include "desktop/bedside/setup_panel.h"
#include "desktop/bedside/unit_bar.h"
#include "desktop/bedside/way_panel.h"
#include "desktop/shell/shortcuts.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"

#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace desktop {

BedsideDesk::BedsideDesk(DeskTools tools, QWidget* parent) : Desk(tools, parent) {
    m_ready = new ReadyList;
    m_work = new QWidget;
    m_bar = new UnitBar;
    m_tabs = new QHBoxLayout;
    m_tabs->setSpacing(targetGap);
    m_panels = new QStackedWidget;
    m_strip = new EntryStrip(tools);
    auto* work = new QVBoxLayout(m_work);
    work->setContentsMargins(0, 0, 0, 0);
    work->setSpacing(8);
    work->addWidget(m_bar);
    work->addLayout(m_tabs);
    work->addWidget(m_panels, 1);
    work->addWidget(m_strip);
    const PanelTools panel{tools, *m_strip};
    addPanel(new WayPanel(panel), tr("Way to ready"), Command::ShowWay);
    addPanel(new SetupPanel(panel), tr("Set-up"), Command::ShowSetup);
    addPanel(new ActsPanel(panel), tr("Other entries"), Command::ShowActs);
    addPanel(new HistoryPanel(panel), tr("History"), Command::ShowHistory);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_ready, 1);
    layout->addWidget(m_work, 1);
    m_work->hide();
    showPanel(0);
    connect(m_ready, &ReadyList::unitWanted, this, &BedsideDesk::showUnit);
    connect(m_ready, &ReadyList::emergencyWanted, this, &BedsideDesk::startInEmergency);
    connect(&workplace(), &Workplace::fleetChanged, this, [this] {
        m_ready->show(workplace().fleet());
        readUnit();
    });
}

void BedsideDesk::addPanel(UnitPanel* panel, const QString& name, Command command) {
    const int index = m_panels->addWidget(panel);
    auto* button = new QPushButton(name);
    button->setCheckable(true);
    button->setAutoExclusive(true);
    connect(button, &QPushButton::clicked, this, [this, index] { showPanel(index); });
    addShortcut(this, command, [this, index] { showPanel(index); });
    m_tabs->addWidget(button);
    m_panelButtons.push_back(button);
}

void BedsideDesk::showPanel(int index) {
    m_panels->setCurrentIndex(index);
    m_panelButtons[static_cast<std::size_t>(index)]->setChecked(true);
}

bool BedsideDesk::isOpen() const {
    return static_cast<const UnitPanel*>(m_panels->currentWidget())->isOpen();
}

void BedsideDesk::showUnit(const QString& serial) {
    if (serial == m_serial || !isOpen()) {
        open(serial);
        return;
    }
    workplace().ask({tr("You are entering something on unit %1. Leave that and open unit %2?")
                         .arg(m_serial, serial),
                     tr("Leave it, open %1").arg(serial), tr("Stay with %1").arg(m_serial)},
                    [this, serial](bool isYes) {
                        if (!isYes) return;
                        static_cast<UnitPanel*>(m_panels->currentWidget())->giveUp();
                        open(serial);
                    });
}

bool BedsideDesk::takeScan(const QString& text) {
    const auto fleet = workplace().fleet();
    if (!fleet) return false;
    workplace().read(
        [fleet, text = plainText(text), open = plainText(m_serial)](const auto& surroundings,
                                                                    const auto&) {
            return station::find(surroundings, *fleet->standing, text, open);
        },
        this, [this](const station::Found& found) { takeFound(found); });
    return true;
}

void BedsideDesk::takeFound(const station::Found& found) {
    if (found.what == station::Found::What::Unit) {
        showUnit(shownText(found.device));
    } else if (!static_cast<UnitPanel*>(m_panels->currentWidget())->takeFound(found)) {
        Q_EMIT workplace().told(shownText(found.sentence));
    }
}

void BedsideDesk::open(const QString& serial) {
    m_serial = serial;
    showPanel(0);
    readUnit();
}

void BedsideDesk::closeUnit() {
    m_serial.clear();
    m_unit.reset();
    m_work->hide();
    m_ready->show();
}

// Two presses: who is signed in stands by it in words, anybody else presses a name. What is still
// to be told is added afterwards.
void BedsideDesk::startInEmergency(const QString& serial) {
    const auto start = [this, serial] {
        station::Entry entry{station::Writer(""), "use_start"};
        entry.device = plainText(serial);
        entry.body = {{"emergency", true}};
        workplace().keep({entry}, this);
    };
    if (!workplace().presence().session()) {
        start();
        return;
    }
    workplace().ask({tr("Record that unit %1 was started now, in an emergency?").arg(serial),
                     tr("Started now, emergency"), tr("Back, record nothing")},
                    [start](bool isYes) {
                        if (isYes) start();
                    });
}

void BedsideDesk::readUnit() {
    const auto fleet = workplace().fleet();
    if (!fleet || m_serial.isEmpty()) return;
    workplace().read(
        [fleet, serial = plainText(m_serial)](const auto& surroundings, const auto&) {
            return station::bedside(surroundings, *fleet->standing, serial)
                .map([&](report::Bedside bedside) {
                    return SharedUnitView(
                        std::make_shared<UnitView>(UnitView{fleet, std::move(bedside)}));
                });
        },
        this, [this, serial = m_serial](const station::Result<SharedUnitView>& unit) {
            if (serial != m_serial) return;
            if (unit) {
                show(*unit);
            } else {
                m_serial.clear();
                Q_EMIT workplace().refused(unit.error());
            }
        });
}

void BedsideDesk::show(const SharedUnitView& unit) {
    m_unit = unit;
    m_bar->show(unit->bedside.identity);
    for (int i = 0; i < m_panels->count(); ++i)
        static_cast<UnitPanel*>(m_panels->widget(i))->show(unit);
    m_ready->hide();
    m_work->show();
    Q_EMIT unitShown(m_serial);
}

}  // namespace desktop
