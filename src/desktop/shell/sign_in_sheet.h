// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who writes: a person key, typed or scanned from a badge, and the PIN. What is typed as PIN goes
// key by key into memory that is wiped, and is in no text of the window.
#pragma once

#include "desktop/shell/sheet.h"
#include "station/secret.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace desktop {

class PinField;
class Workplace;

class SignInSheet : public Sheet {
    Q_OBJECT
public:
    explicit SignInSheet(Workplace& workplace, QWidget* parent = nullptr);

    bool takeScan(const QString& text) override;  // a badge

Q_SIGNALS:
    void signedIn();

private:
    void signIn();

    Workplace& m_workplace;
    QLineEdit* m_who = nullptr;
    PinField* m_pin = nullptr;
    QLabel* m_trouble = nullptr;
    QPushButton* m_enter = nullptr;
};

}  // namespace desktop
