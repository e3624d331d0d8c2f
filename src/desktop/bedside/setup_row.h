// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One position of the set-up: what is fitted, since when, what is wrong with it, and the large
// buttons that change it. Knows no entry.
#pragma once

#include "report/bedside_setup.h"

#include <QWidget>

class QBoxLayout;
class QLabel;

namespace desktop {

class WrappedButton;

class SetupRow : public QWidget {
    Q_OBJECT
public:
    explicit SetupRow(QWidget* parent = nullptr);
    using QWidget::show;
    void show(const report::SetupPosition& position);
    // While the part that was there is being put back.
    void holdPutBack(bool isHeld);

Q_SIGNALS:
    void fitWanted();
    void putBackWanted();
    void removeWanted();
    void reprocessWanted();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    QBoxLayout* m_layout = nullptr;
    QLabel* m_title = nullptr;
    QLabel* m_fitted = nullptr;
    QLabel* m_wrong = nullptr;
    QLabel* m_more = nullptr;
    WrappedButton* m_putBack = nullptr;
    WrappedButton* m_fit = nullptr;
    WrappedButton* m_remove = nullptr;
    WrappedButton* m_reprocess = nullptr;
};

}  // namespace desktop
