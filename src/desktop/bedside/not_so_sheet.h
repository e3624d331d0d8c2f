// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was not as a pass of a check asserts: a condition that did not hold, or the check was not
// finished, or failed; and what was seen, in words. What is chosen stands in the entry, whichever
// button ends it. Keeps nothing itself.
#pragma once

#include "desktop/shell/sheet.h"
#include "report/bedside_acts.h"

#include <string>
#include <utility>
#include <vector>

class QLabel;
class QLineEdit;

namespace desktop {

class WrappedButton;

class NotSoSheet : public Sheet {
    Q_OBJECT
public:
    // The title names unit and check.
    NotSoSheet(const QString& title, const report::CheckToLog& check, QWidget* parent = nullptr);

    // The conditions that are chosen so far.
    [[nodiscard]] std::vector<std::string> notSo() const;

    // What was seen, in the person's words; "" if nothing was typed.
    [[nodiscard]] QString seen() const;

    // While it is being kept nothing can be pressed.
    void setKeeping(bool isKeeping);
    void say(const QString& text);
    bool takeScan(const QString& text) override;
    [[nodiscard]] bool isDraft() const override;
    using Sheet::close;

Q_SIGNALS:
    void conditionsNotSo(const std::vector<std::string>& conditions);
    void notFinished();
    void failed();
    void codeRead(const QString& text);

private:
    void addConditions(const report::CheckToLog& check);
    void addSeen();
    void addFeet(const report::CheckToLog& check);
    void showKeep();

    bool m_isKeeping = false;
    QLabel* m_said = nullptr;
    QLineEdit* m_seen = nullptr;
    WrappedButton* m_keep = nullptr;  // the conditions that are chosen
    std::vector<std::pair<std::string, WrappedButton*>> m_conditions;
};

}  // namespace desktop
