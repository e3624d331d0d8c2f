// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first person who signs in: name, key, and a PIN typed twice.
#pragma once

#include "desktop/first_start/founding.h"
#include "desktop/first_start/setup_page.h"
#include "words/words.h"

namespace desktop {

class PinField;

class ManagerPage : public SetupPage {
    Q_OBJECT
public:
    explicit ManagerPage(const words::Words& words, QWidget* parent = nullptr);

    void state(Founding& founding) const;
    // A copy; the field keeps what was typed.
    [[nodiscard]] station::Secret pin() const;
    void forgetPins();
    [[nodiscard]] QString fault() override;
    void enter() override;

private:
    void proposeKey();
    [[nodiscard]] QString pinFault() const;

    const words::Words& m_words;
    QLineEdit* m_name = nullptr;
    QLineEdit* m_key = nullptr;
    PinField* m_pin = nullptr;
    PinField* m_again = nullptr;
    QString m_proposed;
};

// "r.halvorsen" for "Runa Halvorsen".
[[nodiscard]] QString keyFor(const QString& name);

}  // namespace desktop
