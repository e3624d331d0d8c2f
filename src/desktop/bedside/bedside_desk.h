// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The desk of the therapist: one unit, and what leads it to ready. Finds what was scanned, and
// never leaves a unit on which something is being entered without a question.
#pragma once

#include "desktop/bedside/entry_strip.h"
#include "desktop/bedside/unit_panel.h"

#include <QTimer>
#include <functional>
#include <map>
#include <string>
#include <vector>

class QPushButton;
class QStackedWidget;
class QHBoxLayout;
class QLabel;

namespace desktop {

enum class Command;
class HoldBanner;
class ReadyList;
class SetupPanel;
class UnitBar;

class BedsideDesk : public Desk {
    Q_OBJECT
public:
    explicit BedsideDesk(DeskTools tools, QWidget* parent = nullptr);

    // Asks first if something is being entered on another unit.
    void showUnit(const QString& serial);
    bool takeScan(const QString& text) override;
    bool takeTyped(const QString& text) override;

    // Back to the list of units that are ready.
    void goHome() override { closeUnit(); }
    void closeUnit();
    bool focusWork() override;

    [[nodiscard]] const QString& serial() const { return m_serial; }  // "" if none is open

Q_SIGNALS:
    void unitShown(const QString& serial);  // for the first time, or read again

private:
    // How a unit came to be open.
    enum class Origin { Scanned, Typed, Chosen };

    void makePanels();
    void addPanel(UnitPanel* panel, const QString& name, Command command);
    void showPanel(int index);
    [[nodiscard]] UnitPanel* panel(int index) const;
    void readCode(const QString& text, Origin origin);
    void takeFound(const station::Found& found, Origin origin);
    void takePart(const station::Found& found);
    void takeUnknown(const station::Found& found, Origin origin);
    void askWhich(const station::Found& found, Origin origin);
    void offerEnrolment(const station::Found& found);
    void enrolUnits(const QString& serial);
    void openAsked(const QString& serial, Origin origin);
    void leaveDraft();
    void bringDraftBack();
    [[nodiscard]] std::string personHere() const;
    void open(const QString& serial, Origin origin);
    void nameSession();
    void showAge();
    void showDoubts();
    void showMarked();
    void readUnit();
    void show(const SharedUnitView& unit);
    void await(const logbook::RecordName& kept);
    void showAwaited();
    void take(const station::Result<SharedUnitView>& unit);
    void takeUnread(const station::Problem& problem);
    [[nodiscard]] bool isShown() const;
    [[nodiscard]] bool isBefore(const UnitView& unit) const;
    void showFirst();
    void askPlace();
    void leave(const std::string& person);
    void takeStarts();
    void startInEmergency(const QString& serial);
    void keepStart(const QString& serial, logbook::Instant pressed);
    [[nodiscard]] bool isOpen() const;

    QString m_serial;
    SharedUnitView m_unit;  // as last read; of another unit while that one is being read
    Origin m_origin = Origin::Chosen;
    std::optional<logbook::RecordName> m_awaited;  // kept, and in no view that was read yet
    std::function<void()> m_early;  // a code that was read before the logbook was
    struct SetAside {
        QString serial;
        EntryChoice choice;
    };
    // When and who as it was chosen when the window was locked, by person.
    std::map<std::string, SetAside> m_setAside;
    QLabel* m_doubts = nullptr;  // across the head, whatever is open below it
    UnitBar* m_bar = nullptr;
    HoldBanner* m_hold = nullptr;
    ReadyList* m_ready = nullptr;  // while no unit is open
    QWidget* m_work = nullptr;  // all that is about a unit
    QHBoxLayout* m_tabs = nullptr;
    QStackedWidget* m_panels = nullptr;
    SetupPanel* m_setup = nullptr;  // one of them
    std::vector<QPushButton*> m_panelButtons;
    EntryStrip* m_strip = nullptr;
    QTimer m_second;
};

}  // namespace desktop
