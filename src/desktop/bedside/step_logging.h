// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a press on a step of the way to ready does. Nothing is kept twice: from a press until the
// unit is read again with what was kept, no other is taken; where it cannot be read, others are,
// but none on that step. Knows no row of the screen.
#pragma once

#include "desktop/bedside/check_attempt.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

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
    // Whether no press on that step is taken now.
    [[nodiscard]] bool isHeld(const std::string& step) const;

Q_SIGNALS:
    void heldChanged();
    // On the unit that is shown.
    void kept(const logbook::RecordName& record);
    void fitWanted(const QString& position);
    void serviceWanted(const QString& service);
    void codeRead(const QString& text);

private:
    [[nodiscard]] Workplace& workplace() const { return m_tools.desk.workplace; }
    [[nodiscard]] std::vector<CheckAttempt*> attempts() const;
    void log(const report::BedsideRow& row, Press press);
    // A step of a unit, by the key of its row.
    struct Step {
        std::string device, key;
        bool operator==(const Step&) const = default;
    };
    struct Held {
        Step step;
        std::optional<logbook::RecordName> kept{};  // none: it is being kept
    };

    void attempt(const report::CheckToLog& check, const Step& step, Press press);
    void keep(const station::Act& act, const Step& step);
    void hold(const Step& step);
    void letGo(const Step& step);
    void await(const Step& step, const logbook::RecordName& record);
    void goOn();

    PanelTools m_tools;
    SharedUnitView m_unit;
    std::string m_device;
    std::map<std::string, UnkeptTexts> m_unkept;  // by unit, of whoever is signed in
    std::vector<Held> m_held;  // each until the unit is read with it
    bool m_isKeeping = false;  // no step of this unit is taken
};

}  // namespace desktop
