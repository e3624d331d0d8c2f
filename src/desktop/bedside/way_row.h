// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One row of the way to ready: the next step, large and with its buttons, or any other, in brief.
// Shows what it is given; knows neither the log nor what a press does.
#pragma once

#include "desktop/bedside/step_logging.h"
#include "report/bedside.h"

#include <QWidget>
#include <functional>

class QBoxLayout;
class QLabel;

namespace desktop {

class WrapLayout;

// "14:25, in 12 min" by the clock as it is at that moment; "" where there is nothing to tell.
using StartText = std::function<QString(const report::BedsideRow&)>;

class WayRow : public QWidget {
    Q_OBJECT
public:
    // The others: what is done is quiet, what can be logged offers to come first.
    WayRow(const report::BedsideRow& row, const StartText& start, QWidget* parent = nullptr);

    [[nodiscard]] const report::BedsideRow& row() const { return m_row; }
    void showStart(const StartText& start);

Q_SIGNALS:
    void firstWanted();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void addTexts(QBoxLayout* texts, const StartText& start);

    report::BedsideRow m_row;
    QLabel* m_remarks = nullptr;
};

class StepCard : public QWidget {
    Q_OBJECT
public:
    StepCard(const report::BedsideRow& row, const StartText& start, QWidget* parent = nullptr);

    [[nodiscard]] const report::BedsideRow& row() const { return m_row; }
    void showStart(const StartText& start);
    // The button of that press; null if there is none.
    [[nodiscard]] QPushButton* button(StepLogging::Press press) const;

Q_SIGNALS:
    void pressed(desktop::StepLogging::Press press);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void addDetails(const StartText& start);
    void addButtons();
    void addCheckButtons(const report::CheckToLog& check);
    void addFitButtons(const report::FitToLog& fit);
    void addButton(const QString& text, StepLogging::Press press);

    report::BedsideRow m_row;
    QLabel* m_remarks = nullptr;
    WrapLayout* m_buttons = nullptr;
    std::vector<std::pair<StepLogging::Press, QPushButton*>> m_presses;
};

}  // namespace desktop
