// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One entry with all that stands in it, and the ways to correct it: it is struck through with a
// reason, alone or with its batch, or moved to the unit that was meant. Nothing is ever erased.
#pragma once

#include "desktop/shell/desk.h"
#include "desktop/shell/sheet.h"
#include "report/history.h"
#include "station/correction.h"

class QLabel;
class QLineEdit;

namespace desktop {

class RecordSheet : public Sheet {
    Q_OBJECT
public:
    RecordSheet(DeskTools tools, report::HistoryLine line, QWidget* parent = nullptr);

private:
    void addCorrections();
    void addCorrection(const QString& says, bool moves, bool withBatch);

    DeskTools m_tools;
    report::HistoryLine m_line;
};

// Asks for the reason, and where to move it.
class CorrectionSheet : public Sheet {
    Q_OBJECT
public:
    struct Wanted {
        report::HistoryLine line;
        bool moves = false;
        bool withBatch = false;
    };
    CorrectionSheet(DeskTools tools, Wanted wanted, QWidget* parent = nullptr);

    bool takeScan(const QString& text) override;  // the unit that was meant
    [[nodiscard]] bool isDraft() const override;

private:
    void addReasons();
    void correct();
    void correctBy(const station::Writer& writer);
    void take(const station::Result<station::Corrected>& corrected);

    DeskTools m_tools;
    Wanted m_wanted;
    QLineEdit* m_unit = nullptr;  // null where nothing is moved
    QLineEdit* m_reason = nullptr;
    QLabel* m_trouble = nullptr;
};

}  // namespace desktop
