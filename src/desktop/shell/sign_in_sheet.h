// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who writes: a person key, typed or scanned from a badge, and the PIN; or, for what must not wait,
// a name alone. What is typed as PIN goes key by key into memory that is wiped, and is in no text
// of the window.
#pragma once

#include "desktop/shell/sheet.h"
#include "station/sign_in.h"

#include <functional>

class QLabel;
class QLineEdit;
class QPushButton;

namespace desktop {

class PinField;
class Workplace;

class SignInSheet : public Sheet {
    Q_OBJECT
public:
    enum class Wanted {
        SignIn,    // a PIN
        NameOnly,  // one press on a name will do; a PIN is offered
    };
    // `taken` is given who writes; not called if the sheet is called off.
    SignInSheet(Workplace& workplace, Wanted wanted, std::function<void(station::Writer)> taken,
                QWidget* parent = nullptr);

    // What is kept once somebody has said who writes, above everything else.
    void sayFor(const QString& what);

    bool takeScan(const QString& text) override;  // a badge
    // What was pressed and waits for a name alone.
    [[nodiscard]] QString unkept() const override {
        return m_wanted == Wanted::NameOnly ? m_for : QString();
    }

private:
    void addNames();
    void addFields();
    void tellDemo();
    void refuse(const QString& text, QWidget& lacking);
    void signIn();
    void finish(const station::Writer& writer);

    Workplace& m_workplace;
    const Wanted m_wanted;
    QString m_for;  // what is kept then
    std::function<void(station::Writer)> m_taken;
    QLineEdit* m_who = nullptr;
    PinField* m_pin = nullptr;
    QLabel* m_trouble = nullptr;
    QPushButton* m_enter = nullptr;
};

}  // namespace desktop
