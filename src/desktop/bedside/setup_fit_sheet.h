// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fitting a part into one position: what it is like is proposed, what is on it is typed or scanned.
// What stands against it is told as soon as that is known, on a patient too; what is to be
// confirmed is asked at the press, and never on a patient.
#pragma once

#include "desktop/bedside/unit_panel.h"
#include "desktop/shell/sheet.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

class QLabel;

namespace desktop {

class EntryStrip;
struct Pressed;
class PartFields;
class WrappedButton;

class FitSheet : public Sheet {
    Q_OBJECT
public:
    FitSheet(const PanelTools& tools, SharedUnitView unit, const report::FitToLog& fit,
             QWidget* parent = nullptr);

    // As it is known of the part, lot or model by that code, which was read before the sheet was
    // there.
    void proposeKnown(const report::PartProposal& proposal, const std::string& code);

    // A part that is known, a lot or a model; else what the line with the focus asks for.
    bool takeScan(const QString& text) override;
    void comeBack() override;
    [[nodiscard]] bool isDraft() const override { return m_isKeeping || m_isTouched; }

Q_SIGNALS:
    void kept();
    void codeRead(const QString& text);

private:
    // What the fields were filled with: as it stands with the unit, by a code, or the part before
    // again.
    enum class Proposed { OfUnit, ByCode, PutBack };
    // The same, read anew.
    struct Again {
        SharedUnitView unit;
        std::optional<station::Found> found;  // by that code
    };

    void addHead();
    void addFoot();
    void showFit();
    void propose(const report::PartProposal& proposal, Proposed how);
    void showSource(const report::PartProposal& proposal);
    void look(const QString& text, const std::string& attribute = {});
    void takeFound(const station::Found& found, const std::string& attribute);
    void takeScanned(const station::Found& found);
    void takeTyped(const station::Found& found, const std::string& attribute);
    void noteOtherPosition(const station::Found& found);
    [[nodiscard]] const report::PartProposal* proposalIn(const station::Found& found) const;
    void askToPropose(const report::PartProposal& proposal, const QString& read);
    void renew(const Again& again);
    void showAnswers();
    void showOutlook();
    [[nodiscard]] QString otherGroups() const;
    [[nodiscard]] std::vector<std::string> remarks() const;
    [[nodiscard]] Pressed pressed() const;
    [[nodiscard]] bool mayAsk() const;
    void keep();
    void keepPressed();
    void setKeeping(bool isKeeping);
    void take(const Workplace::Kept& kept);

    PanelTools m_tools;
    SharedUnitView m_unit;
    report::FitToLog m_fit;
    Proposed m_proposed = Proposed::OfUnit;
    std::string m_code;  // by which
    PartFields* m_fields = nullptr;
    EntryStrip* m_strip = nullptr;
    QLabel* m_line = nullptr;     // which unit
    QLabel* m_source = nullptr;   // from where the proposal is
    WrappedButton* m_same = nullptr;
    QLabel* m_outlook = nullptr;  // what stands against the part
    QLabel* m_remark = nullptr;   // other groups, another position, or that it stands elsewhere
    QLabel* m_trouble = nullptr;
    WrappedButton* m_keep = nullptr;
    QString m_elsewhere;
    // By what is on a part that is known in other positions alone: that.
    std::map<std::string, std::string, std::less<>> m_otherPositions;
    int m_looks = 0;             // that are on their way
    bool m_keepsThen = false;    // pressed before they were back
    std::string m_presser;       // by whom; "" nobody was signed in
    bool m_isJudging = false, m_judgesAgain = false;
    bool m_isKeeping = false;
    bool m_isTouched = false;  // something was typed, scanned or chosen
};

// What fitting into that position of the unit asks for: as the way to ready has it, or else like
// the part before.
[[nodiscard]] report::FitToLog fitFor(const UnitView& unit, const words::Words& words,
                                      const std::string& position);

}  // namespace desktop
