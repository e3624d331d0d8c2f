// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keys for a number that gloved fingers hit, typing into a field that takes the keyboard's keys as
// well. Knows no measure.
#pragma once

#include <QChar>
#include <QWidget>

class QLineEdit;
class QPushButton;

namespace desktop {

class Keypad : public QWidget {
    Q_OBJECT
public:
    // `point` is what separates: the decimal point or comma, the colon of a time. With the colon
    // come what a date takes, the hyphen and the blank.
    Keypad(QLineEdit* field, QChar point, QWidget* parent = nullptr);

    void offerMinus(bool isOffered);

private:
    QPushButton* addKey(const QString& text, int row, int column);

    QLineEdit* m_field;
    QPushButton* m_minus = nullptr;
};

}  // namespace desktop
