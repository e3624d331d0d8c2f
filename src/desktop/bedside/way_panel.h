// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The way to ready: what is next, large, with what to press; below it what comes after, what stands
// in the way and what is done. Counts down by the clock from what the log says.
#pragma once

#include "desktop/bedside/unit_panel.h"
#include "desktop/bedside/way_row.h"
#include "desktop/shell/shortcuts.h"

#include <QTimer>
#include <vector>

class QLabel;
class QScrollArea;
class QVBoxLayout;

namespace desktop {

class WrappedButton;

class WayPanel : public UnitPanel {
    Q_OBJECT
public:
    explicit WayPanel(PanelTools tools, QWidget* parent = nullptr);

    void show(const SharedUnitView& unit) override;
    void await() override;
    bool focusWork() override;
    [[nodiscard]] bool isOpen() const override { return m_logging->isOpen(); }
    void giveUp() override { m_logging->giveUp(); }

Q_SIGNALS:
    // A part is to be fitted there, by the set-up panel.
    void fitWanted(const QString& position);
    // What came of a service is to be recorded, by the panel of the other entries.
    void serviceWanted(const QString& service);

private:
    void makeHead();
    void offerUndo(const logbook::RecordName& record);
    void nameUndo();
    [[nodiscard]] QString keptLine() const;  // "" until it is read
    void undo();
    void offerKey(Command command, StepLogging::Press press);
    void showHead();
    void showRows();
    void placeHead();
    void addHolds();
    [[nodiscard]] bool isToldAbove(const report::BedsideRow& row) const;
    void addCard(const report::BedsideRow& row);
    void addRows(const QString& head, const std::vector<const report::BedsideRow*>& rows);
    void addRow(const report::BedsideRow& row);
    void countDown();
    void takeFirst(const std::string& key);
    [[nodiscard]] const report::BedsideRow* first() const;
    [[nodiscard]] const report::BedsideRow* rowNamed(const std::string& key) const;
    [[nodiscard]] StartText startText() const;

    SharedUnitView m_unit;
    std::string m_shown;  // of which unit
    std::string m_first;  // the row that somebody wants first; "" for the next step
    std::vector<std::string> m_texts;  // all that the rows say: the same is not laid out again
    StepLogging* m_logging;
    QTimer m_second;
    QWidget* m_head = nullptr;
    QLabel* m_headline = nullptr;
    WrappedButton* m_undo = nullptr;  // of what was kept last, until something else comes
    logbook::RecordName m_kept{};
    QScrollArea* m_scroll = nullptr;
    QWidget* m_inside = nullptr;
    QVBoxLayout* m_list = nullptr;
    StepCard* m_card = nullptr;
    std::vector<WayRow*> m_rows;
};

}  // namespace desktop
