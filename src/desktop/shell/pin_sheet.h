// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The PIN once more, of whoever is signed in, before something grave is kept: the desk may have
// been left as it was. Tells whose name it will bear, and knows no entry.
#pragma once

#include "desktop/shell/sheet.h"
#include "station/sign_in.h"

#include <functional>
#include <string>

class QLabel;
class QPushButton;

namespace desktop {

class PinField;
class Workplace;

class PinSheet : public Sheet {
    Q_OBJECT
public:
    // Somebody is signed in. `taken` is given who writes; not called if the sheet is called off, or
    // somebody else is here by then.
    PinSheet(Workplace& workplace, const QString& what,
             std::function<void(station::Writer)> taken, QWidget* parent = nullptr);

private:
    void addFoot();
    void signIn();
    void take(const station::Result<station::Session>& session);

    Workplace& m_workplace;
    const std::string m_person;
    std::function<void(station::Writer)> m_taken;
    PinField* m_pin = nullptr;
    QLabel* m_trouble = nullptr;
    QPushButton* m_enter = nullptr;
};

}  // namespace desktop
