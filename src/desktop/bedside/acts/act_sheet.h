// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A short sheet for one entry: which unit, what is to be known, the fields, and one button that
// says what it asserts. Where the entry is refused the sheet says why and keeps what was typed.
#pragma once

#include "desktop/bedside/acts/act_form.h"
#include "desktop/bedside/unit_panel.h"
#include "desktop/shell/sheet.h"

#include <vector>

class QLabel;

namespace desktop {

class ActFieldWidget;
class EntryStrip;
class WrappedButton;

class ActSheet : public Sheet {
    Q_OBJECT
public:
    ActSheet(const PanelTools& tools, SharedUnitView unit, ActForm form,
             QWidget* parent = nullptr);

    // Into the line that is typed into; a unit's code is no text for it and handed on.
    bool takeScan(const QString& text) override;
    [[nodiscard]] bool isDraft() const override { return true; }

Q_SIGNALS:
    // Everything was kept; it closes itself.
    void kept();
    void codeRead(const QString& text);

protected:
    // With every wanted field answered: what is wrong with an answer by the fleet as it was last
    // read, or "".
    [[nodiscard]] virtual QString objection(const Answers& answers) const;
    virtual void keepAll(const Answers& answers, Workplace::TakeKept taken);
    void setField(const std::string& key, const QString& text);

    [[nodiscard]] const UnitView& unit() const { return *m_unit; }
    // When and who of this entry: as chosen below the panels, until it is changed here.
    [[nodiscard]] EntryStrip& strip() const { return *m_strip; }
    [[nodiscard]] Workplace& workplace() const { return m_tools.desk.workplace; }

private:
    void addHead();
    void addFields();
    void addFoot();
    void showAnswers();
    [[nodiscard]] Answers answers() const;
    void keep();
    void setKeeping(bool isKeeping);
    void take(const Workplace::Kept& kept);

    PanelTools m_tools;
    SharedUnitView m_unit;
    ActForm m_form;
    EntryStrip* m_strip = nullptr;
    std::vector<ActFieldWidget*> m_fields;
    QLabel* m_trouble = nullptr;
    WrappedButton* m_keep = nullptr;
    bool m_isKeeping = false;
};

}  // namespace desktop
