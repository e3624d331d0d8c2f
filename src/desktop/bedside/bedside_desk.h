// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The desk of the therapist: one unit, and what leads it to ready. Finds what was scanned, and
// never leaves a unit on which something is being entered without a question.
#pragma once

#include "desktop/bedside/unit_panel.h"

#include <vector>

class QPushButton;
class QStackedWidget;
class QHBoxLayout;

namespace desktop {

enum class Command;
class ReadyList;
class UnitBar;

class BedsideDesk : public Desk {
    Q_OBJECT
public:
    explicit BedsideDesk(DeskTools tools, QWidget* parent = nullptr);

    // Asks first if something is being entered on another unit.
    void showUnit(const QString& serial);
    bool takeScan(const QString& text) override;

    // Back to the list of units that are ready.
    void closeUnit();

    [[nodiscard]] const QString& serial() const { return m_serial; }  // "" if none is open

Q_SIGNALS:
    void unitShown(const QString& serial);  // for the first time, or read again

private:
    void addPanel(UnitPanel* panel, const QString& name, Command command);
    void showPanel(int index);
    void open(const QString& serial);
    void readUnit();
    void show(const SharedUnitView& unit);
    void takeFound(const station::Found& found);
    void startInEmergency(const QString& serial);
    [[nodiscard]] bool isOpen() const;

    QString m_serial;
    SharedUnitView m_unit;
    UnitBar* m_bar = nullptr;
    ReadyList* m_ready = nullptr;  // while no unit is open
    QWidget* m_work = nullptr;  // all that is about a unit
    QHBoxLayout* m_tabs = nullptr;
    QStackedWidget* m_panels = nullptr;
    std::vector<QPushButton*> m_panelButtons;
    EntryStrip* m_strip = nullptr;
};

}  // namespace desktop
