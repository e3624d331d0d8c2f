// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who else: somebody by whom it was done, or a second person who verifies it and signs in for that
// with their own PIN. Knows no entry.
#pragma once

#include "desktop/bedside/person_list.h"
#include "desktop/shell/sheet.h"
#include "station/sign_in.h"

class QLabel;
class QPushButton;

namespace desktop {

class PinField;

class AnotherSheet : public Sheet {
    Q_OBJECT
public:
    AnotherSheet(Workplace& workplace, const std::set<std::string>& notOffered,
                 QWidget* parent = nullptr);

    bool takeScan(const QString& text) override;  // a badge

Q_SIGNALS:
    void chosen(const desktop::Somebody& somebody);
    void meChosen();
    void secondWanted();

private:
    PersonList* m_people = nullptr;
};

class SecondSheet : public Sheet {
    Q_OBJECT
public:
    SecondSheet(Workplace& workplace, const std::set<std::string>& notOffered,
                 QWidget* parent = nullptr);

    bool takeScan(const QString& text) override;  // a badge
    // Offers to go on without; `text` says what that means.
    void offerWithout(const QString& text);
    using Sheet::close;

Q_SIGNALS:
    void verified(const station::Session& second);
    void withoutChosen();

private:
    void take(const Somebody& somebody);
    void signIn();

    Workplace& m_workplace;
    PersonList* m_people = nullptr;
    std::string m_person;
    QWidget* m_pinPart = nullptr;
    QLabel* m_name = nullptr;
    PinField* m_pin = nullptr;
    QLabel* m_trouble = nullptr;
    QPushButton* m_enter = nullptr;
    QPushButton* m_without = nullptr;
};

}  // namespace desktop
