// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The desk of the charge therapist: all units at once.
#pragma once

#include "desktop/fleet/fleet_rows.h"
#include "desktop/shell/background.h"
#include "desktop/shell/desk.h"

#include <QTimer>
#include <vector>

class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace desktop {

class FleetFilter;
class FleetModel;
class FleetOverview;
class SoonestReady;
class UnitTable;

class FleetDesk : public Desk {
    Q_OBJECT
public:
    explicit FleetDesk(DeskTools tools, QWidget* parent = nullptr);
    ~FleetDesk() override;

protected:
    void showEvent(QShowEvent* event) override;

private:
    void makeHead(QVBoxLayout& layout);
    void makeFilters(QVBoxLayout& layout);
    void makeTable(QVBoxLayout& layout);
    void makeShortcuts();
    void enrolUnits();
    void makeTexts();
    void take(const SharedFleetView& view, const SharedFleetTable& table);
    void showTable();    // what was taken, once it can be seen
    void showTexts();    // as time goes by
    void showCounts();
    void showFound();
    void chooseGroup(const QString& key);
    void markUnit(const QString& serial);

    struct VerdictChoice {
        std::optional<rules::Verdict> verdict;  // none: all
        QPushButton* button = nullptr;
    };

    FleetModel* m_model = nullptr;
    FleetFilter* m_units = nullptr;
    FleetOverview* m_overview = nullptr;
    UnitTable* m_table = nullptr;
    QLineEdit* m_find = nullptr;
    QLabel* m_found = nullptr;   // how many are shown, where not all are
    QLabel* m_marked = nullptr;  // of the unit on which the keyboard stands
    QPushButton* m_muster = nullptr;
    QPushButton* m_horizon = nullptr;
    QPushButton* m_enrol = nullptr;
    QWidget* m_choices = nullptr;
    std::vector<VerdictChoice> m_verdicts;
    QTimer m_second;
    SoonestReady* m_soonest = nullptr;
    SharedFleetView m_view;
    SharedFleetView m_asked;  // of which texts are made, or were last
    SharedFleetTable m_texts;
    bool m_isOld = false;          // what was taken is not in the table yet
    std::filesystem::path m_path;  // of the logbook that is shown
    Background m_forecasts, m_making;  // of texts
};

}  // namespace desktop
