// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fitting a part into one position: what it is like is proposed, what is on it is typed or scanned.
// That it is for another group than the part before is confirmed in words.
#pragma once

#include "desktop/bedside/unit_panel.h"
#include "desktop/shell/sheet.h"

#include <optional>

class QLabel;

namespace desktop {

class EntryStrip;
class PartFields;
class WrappedButton;

class FitSheet : public Sheet {
    Q_OBJECT
public:
    FitSheet(const PanelTools& tools, SharedUnitView unit, const report::FitToLog& fit,
             QWidget* parent = nullptr);

    // A part that is known, or a model; else what the line with the focus asks for.
    bool takeScan(const QString& text) override;
    [[nodiscard]] bool isDraft() const override { return m_isKeeping || m_isTouched; }

Q_SIGNALS:
    void kept();
    void codeRead(const QString& text);

private:
    void addHead();
    void addFoot();
    void propose(const report::PartProposal& proposal);
    void look(const QString& text, bool isScanned);
    void takeFound(const station::Found& found, bool isScanned);
    void askToPropose(const report::PartProposal& proposal, const QString& read);
    void showAnswers();
    [[nodiscard]] QString otherGroups() const;
    void keep();
    void setKeeping(bool isKeeping);
    void take(const Workplace::Kept& kept);

    PanelTools m_tools;
    SharedUnitView m_unit;
    report::FitToLog m_fit;
    PartFields* m_fields = nullptr;
    EntryStrip* m_strip = nullptr;
    QLabel* m_source = nullptr;   // from where the proposal is
    QLabel* m_remark = nullptr;   // other groups, or that it stands elsewhere
    QLabel* m_trouble = nullptr;
    WrappedButton* m_keep = nullptr;
    QString m_elsewhere;
    bool m_isKeeping = false;
    bool m_isTouched = false;  // something was typed, scanned or chosen
};

// What fitting into that position of the unit asks for: as the way to ready has it, or else like
// the part before.
[[nodiscard]] report::FitToLog fitFor(const UnitView& unit, const words::Words& words,
                                      const std::string& position);

}  // namespace desktop
