// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One entry with all that stands in it, and the ways to correct it: it is struck through with a
// reason, alone or with its batch, or moved to the unit that was meant, which is told in words
// first. Nothing is ever erased.
#pragma once

#include "desktop/shell/desk.h"
#include "desktop/shell/sheet.h"
#include "report/bedside.h"
#include "report/history.h"
#include "station/correction.h"

#include <string>
#include <vector>

class QLabel;
class QLineEdit;
class QPushButton;

namespace desktop {

// An entry and the line that tells its unit.
struct ShownEntry {
    report::HistoryLine line;
    QString unit;
};

class RecordSheet : public Sheet {
    Q_OBJECT
public:
    RecordSheet(DeskTools tools, ShownEntry entry, QWidget* parent = nullptr);

private:
    void addCorrections();
    void addCorrection(const QString& says, bool moves, bool withBatch);

    DeskTools m_tools;
    ShownEntry m_entry;
};

// Asks for the reason, and where to move it.
class CorrectionSheet : public Sheet {
    Q_OBJECT
public:
    struct Wanted {
        ShownEntry entry;
        bool moves = false;
        bool withBatch = false;
    };
    CorrectionSheet(DeskTools tools, Wanted wanted, QWidget* parent = nullptr);

    bool takeScan(const QString& text) override;  // the unit that was meant
    [[nodiscard]] bool isDraft() const override;

Q_SIGNALS:
    void corrected();

private:
    void addReasons();
    [[nodiscard]] QStringList reasons() const;
    void addTarget();
    void readTarget();
    void sayTarget(const QString& text);
    void showTarget(const report::Bedside& unit);
    void showKeep();
    void readEntries();
    void showEntries(const std::vector<station::CorrectionLine>& lines);
    void setKeeping(bool isKeeping);
    [[nodiscard]] QString whatIsCorrected() const;
    void sayTrouble(const QString& text);
    void refuse(const QString& text, QWidget& lacking);
    void correct();
    [[nodiscard]] station::Correction correctionBy(const station::Writer& writer) const;
    void askOfMove();
    void askOfHold(const station::MoveOutlook& outlook);
    void askOfOutlook(const std::vector<std::string>& told);
    void sign();
    void correctBy(const station::Writer& writer);
    void takeProblem(const station::Problem& problem);
    void take(const station::Result<station::Corrected>& corrected);

    DeskTools m_tools;
    Wanted m_wanted;
    QLabel* m_entries = nullptr;  // all that are struck or moved
    std::vector<logbook::RecordName> m_shown;  // these
    QLineEdit* m_unit = nullptr;  // null where nothing is moved
    QLabel* m_target = nullptr;   // that unit, in words
    std::string m_presser;        // who was here when it was pressed; "" nobody
    std::string m_device;         // its serial; "" where none goes by what is typed
    bool m_isLooking = false;     // for it
    bool m_hasRead = false;       // the entries
    bool m_isKeeping = false;
    QLineEdit* m_reason = nullptr;
    QLabel* m_trouble = nullptr;
    QPushButton* m_keep = nullptr;
};

}  // namespace desktop
