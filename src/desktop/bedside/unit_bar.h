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
    // That it is old, and how old; "" if it is not. What is old, or was ready until a time that has
    // passed, is not shown as ready.
    void showAge(const QString& sentence, logbook::Instant now);
    // An entry has been kept, and what becomes of the unit by it is not known yet: no verdict from
    // before it stands beside what was told of it.
    void showAwaited();
    // The serial was typed: the last four characters are to be compared with the unit.
    void askToCompare(bool isAsked);

private:
    void showVerdict(bool isOld, logbook::Instant now);

    report::BedsideIdentity m_unit;
    bool m_isAwaited = false;
    QLabel* m_serial = nullptr;
    QLabel* m_compare = nullptr;
    QLabel* m_asset = nullptr;
    QLabel* m_place = nullptr;
    QLabel* m_group = nullptr;
    VerdictChip* m_verdict = nullptr;
    QLabel* m_note = nullptr;  // until when, or in doubt
    QLabel* m_age = nullptr;
};

}  // namespace desktop
