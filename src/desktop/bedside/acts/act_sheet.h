// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A short sheet for one entry: which unit, what is to be known, the fields, and one button that
// says what it asserts. Where the entry is refused the sheet says why and keeps what was typed.
#pragma once

#include "desktop/bedside/acts/act_scene.h"
#include "desktop/bedside/entry_strip.h"
#include "desktop/bedside/unit_panel.h"
#include "desktop/shell/sheet.h"

#include <functional>
#include <vector>

class QLabel;

namespace desktop {

class ActFieldWidget;
class WrappedButton;

// By the unit as it is then: made anew when the sheet comes back.
using MakeForm = std::function<ActForm(const ActScene&)>;

class ActSheet : public Sheet {
    Q_OBJECT
public:
    ActSheet(const PanelTools& tools, SharedUnitView unit, MakeForm makeForm,
             QWidget* parent = nullptr);

    // Into the line that is typed into; a unit's code is no text for it and handed on.
    bool takeScan(const QString& text) override;
    [[nodiscard]] bool takesCodeAlone() const override { return false; }
    [[nodiscard]] bool isDraft() const override;
    void comeBack() override;

Q_SIGNALS:
    // Everything was kept; it closes itself.
    void kept();
    void codeRead(const QString& text);

protected:
    // With every wanted field answered: what is wrong with an answer by the fleet as it was last
    // read, or "".
    [[nodiscard]] virtual QString objection(const Answers& answers) const;
    // What is to be known of the answers given so far, whatever is still wanted; "" nothing.
    [[nodiscard]] virtual QString remark(const Answers& answers) const;
    [[nodiscard]] virtual std::vector<station::Act> actsOf(const Answers& answers) const;
    virtual void keepAll(const Answers& answers, Workplace::TakeKept taken);
    void setField(const std::string& key, const QString& text);

    [[nodiscard]] const UnitView& unit() const { return *m_unit; }
    // When and who of this entry: as chosen below the panels, until it is changed here.
    [[nodiscard]] EntryStrip& strip() const { return *m_strip; }
    [[nodiscard]] Workplace& workplace() const { return m_tools.desk.workplace; }

private:
    void addAsked();
    void addTold();
    void addFields();
    void addFoot();
    void readUnit(std::function<void()> then);
    [[nodiscard]] bool takeUnit(const SharedUnitView& unit);
    void renew(const SharedUnitView& unit, ActForm form);
    void endReading();
    void lookAgain();
    void keepPressed();
    void showAnswers();
    void showHint(const Answers& answers);
    [[nodiscard]] Answers answers() const;
    void keep();
    void setKeeping(bool isKeeping);
    void take(const Workplace::Kept& kept);
    void sayTrouble(const QString& text);

    PanelTools m_tools;
    SharedUnitView m_unit;
    MakeForm m_makeForm;
    ActForm m_form;
    QWidget* m_before = nullptr;  // in the order of the focus, never seen
    QWidget* m_asked = nullptr;   // what is told, and the fields
    EntryStrip* m_strip = nullptr;
    EntryChoice m_begunWith;     // of the strip
    std::vector<ActFieldWidget*> m_fields;
    QLabel* m_remark = nullptr;
    QLabel* m_hint = nullptr;    // that a text looks as if it named a patient
    QLabel* m_trouble = nullptr;
    WrappedButton* m_keep = nullptr;
    bool m_isKeeping = false;
    bool m_isWaiting = false;    // then until the unit has been looked up again
    int m_readings = 0;          // of the fleet that are waited for
    std::string m_presser;       // who was here at the press
    logbook::Instant m_pressed{};
    bool m_isTouched = false;    // something was typed, scanned or chosen
};

}  // namespace desktop
