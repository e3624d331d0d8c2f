// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a press on a step of the way to ready does. Nothing is kept twice: from a press until the
// unit is read again with what was kept, no other is taken. Knows no row of the screen.
#pragma once

#include "desktop/bedside/check_attempt.h"

namespace desktop {

class StepLogging : public QObject {
    Q_OBJECT
public:
    explicit StepLogging(PanelTools tools, QObject* parent = nullptr);

    // The unit that the presses are about, read again or another.
    void show(const SharedUnitView& unit);

    enum class Press {
        Done,     // as the button says; a check has passed
        Values,   // the same, with the values that may be left out
        NotSo,
        Failed,
        PutBack,  // the part taken out for the step before
    };
    void press(const report::BedsideRow& row, Press press);

    // Something is being entered that is not kept yet.
    [[nodiscard]] bool isOpen() const;
    void giveUp();
    [[nodiscard]] bool isKeeping() const { return m_isKeeping; }

Q_SIGNALS:
    void keepingChanged();
    // On the unit that is shown.
    void kept(const logbook::RecordName& record);
    void fitWanted(const QString& position);
    void serviceWanted(const QString& service);
    void codeRead(const QString& text);

private:
    [[nodiscard]] Workplace& workplace() const { return m_tools.desk.workplace; }
    [[nodiscard]] std::vector<CheckAttempt*> attempts() const;
    void log(const report::BedsideRow& row, Press press);
    void attempt(const report::CheckToLog& check, Press press);
    void keep(const station::Act& act);
    void await(const std::string& device, const logbook::RecordName& record);
    void setKeeping(bool isKeeping);

    PanelTools m_tools;
    SharedUnitView m_unit;
    std::string m_device;
    std::map<std::string, UnkeptTexts> m_unkept;  // by unit, of whoever is signed in
    bool m_isKeeping = false;
    std::optional<logbook::RecordName> m_awaited;  // until the unit is read with it
};

}  // namespace desktop
