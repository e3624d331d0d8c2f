// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window: the desks side by side, above them the field for codes and who is signed in, below
// them what was told last. Decides which desk takes a code; knows no rule.
#pragma once

#include "desktop/scan/scan_filter.h"
#include "desktop/shell/desk.h"
#include "desktop/shell/question_sheet.h"

#include <QWidget>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

class QButtonGroup;
class QLineEdit;
class QPushButton;
class QStackedWidget;

namespace desktop {

class BedsideDesk;
class Closing;
class FirstStart;
class FleetDesk;
class HeadBar;
class ToldText;
class WaitingHint;

class Window : public QWidget {
    Q_OBJECT
public:
    explicit Window(Start start, QWidget* parent = nullptr);
    ~Window() override;

    [[nodiscard]] Workplace& workplace() { return m_workplace; }

protected:
    void closeEvent(QCloseEvent* event) override;

private:
    void makeHead();
    void signInOrLock();
    void focusWork();
    void makeDesks();
    void makeShortcuts();
    void addDesk(Desk* desk, const QString& name);
    void makeFirstStart();
    void makeClosing();
    // Without a logbook that can be worked with the desks make way for it.
    void showFirstStart(bool isFirst);
    [[nodiscard]] bool isFirstStart() const;
    void showDesk(int index);
    void takeScan(const QString& text);
    void takeTyped(const QString& text);
    void tellUntaken(const QString& text);
    [[nodiscard]] bool mayBeTyped(const QString& text) const;
    bool askIfScanned(QLineEdit& line);
    void takeOutOf(QLineEdit& line, const QString& code);
    void askToLeave(Sheet* sheet);
    void askWhoWrites(const Workplace::WriterWanted& wanted,
                      const std::function<void(station::Writer)>& then);
    void showHelp();
    void takeSettings();
    void verifyLog();
    void tellDemo();
    void showPresence();
    void leave(const std::string& person);
    void comeBack(const std::string& person);
    void tell(const QString& text);
    void tellProblem(const station::Problem& problem);

    Workplace m_workplace;
    ScanFilter m_scans;
    HeadBar* m_head = nullptr;
    ToldText* m_told = nullptr;
    WaitingHint* m_waiting = nullptr;
    QStackedWidget* m_stack = nullptr;
    BedsideDesk* m_bedside = nullptr;
    FleetDesk* m_fleet = nullptr;
    FirstStart* m_firstStart = nullptr;
    std::vector<QPushButton*> m_deskButtons;
    QButtonGroup* m_deskGroup = nullptr;
    std::filesystem::path m_verified;  // the logbook whose settings stand here; "" none yet
    std::map<std::string, QString> m_unitOf;  // by person: open when the window was locked
    SheetStack* m_sheets = nullptr;
    std::unique_ptr<SheetQuestions> m_questions;
    Closing* m_closing = nullptr;
};

}  // namespace desktop
