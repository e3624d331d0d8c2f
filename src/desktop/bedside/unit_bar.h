// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which unit this is, above everything else and never scrolled away.
#pragma once

#include "report/bedside.h"

#include <QWidget>

class QLabel;

namespace desktop {

class VerdictChip;

class UnitBar : public QWidget {
    Q_OBJECT
public:
    explicit UnitBar(QWidget* parent = nullptr);
    void show(const report::BedsideIdentity& unit);
    // The serial was typed: the last four characters are to be compared with the unit.
    void askToCompare(bool isAsked);

private:
    QLabel* m_serial = nullptr;
    QLabel* m_compare = nullptr;
    QLabel* m_asset = nullptr;
    QLabel* m_place = nullptr;
    QLabel* m_group = nullptr;
    VerdictChip* m_verdict = nullptr;
    QLabel* m_note = nullptr;  // until when, or in doubt
};

}  // namespace desktop
