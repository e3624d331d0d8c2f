// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first start: a department is set up step by step, or the demo or a logbook is opened. Ends
// with a logbook that can be worked with.
#pragma once

#include "desktop/first_start/founding.h"
#include "desktop/shell/desk.h"

#include <QWidget>
#include <filesystem>
#include <memory>
#include <vector>

class QLabel;
class QPushButton;
class QScrollArea;
class QStackedWidget;

namespace desktop {

class CodePage;
class DepartmentPage;
class ManagerPage;
class RulebookPage;
class SetupPage;
class UnitsPage;

class FirstStart : public QWidget {
    Q_OBJECT
public:
    // `folder` is where this person's data lie; demo and logbook are offered there.
    FirstStart(DeskTools tools, std::filesystem::path folder, QWidget* parent = nullptr);

    // Whether a logbook is there and has all that work needs: then it is opened, else what it lacks
    // is asked for.
    void begin(const station::LogbookFile& file);
    bool takeScan(const QString& text);
    void tellUntaken(const QString& told);  // of a code that was scanned
    // Whether that was found at the last look: what keeps it from being read is something else.
    [[nodiscard]] bool lacksNothing(const station::LogbookFile& file) const {
        return m_lacksNothing == file.path;
    }
    // Whether somebody is at it: what they typed must stay in sight.
    [[nodiscard]] bool isUnderWay() const;
    // What is lost if the window is closed now, as a sentence; "" nothing.
    [[nodiscard]] QString lostIfClosed() const;

Q_SIGNALS:
    // It can be worked with; that unit is wanted first, "" none.
    void opened(const station::LogbookFile& file, const QString& serial);

private:
    QWidget* makeWelcome();
    void makePages();
    [[nodiscard]] QString newFile() const;  // where one is offered to be made
    void makeFoot();
    enum class SetUp { Offered, Kept };  // Kept: not over a logbook that is there and damaged
    void showWelcome(const QString& trouble = {}, SetUp setUp = SetUp::Offered);
    void showPage(SetupPage* page);
    void goOn();
    void leavePage(SetupPage* page);
    void goBack();
    void foundLogbook();
    void takeFounded(Founded founded);
    void finishWithout();
    void finish(const QString& serial);
    void tell(const QString& trouble);
    void keepInSight();
    void openDemo();
    void chooseLogbook();
    void lookAt(const station::LogbookFile& file, const station::Staffing& staffing);

    DeskTools m_tools;
    std::filesystem::path m_folder;
    bool m_isChecking = false;  // what stands on the page
    station::LogbookFile m_file;  // that is being set up
    bool m_hasEdition = false;    // and has rules already
    std::filesystem::path m_lacksNothing{};  // empty: none was looked at
    QStackedWidget* m_stack = nullptr;
    QWidget* m_welcome = nullptr;
    QWidget* m_foot = nullptr;
    QWidget* m_unitPresses = nullptr;  // of the units, always in sight
    QLabel* m_title = nullptr;
    QLabel* m_trouble = nullptr;
    QPushButton* m_back = nullptr;
    QPushButton* m_later = nullptr;
    QPushButton* m_next = nullptr;
    QPushButton* m_setUp = nullptr;
    QPushButton* m_demo = nullptr;
    DepartmentPage* m_department = nullptr;
    ManagerPage* m_manager = nullptr;
    RulebookPage* m_rulebook = nullptr;
    CodePage* m_code = nullptr;
    UnitsPage* m_units = nullptr;
    std::vector<SetupPage*> m_pages;  // those that are gone through, in order
    std::size_t m_at = 0;
};

}  // namespace desktop
