// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A letter that stands in its line before it is known whether somebody typed it. Whoever listens to
// the line hears of it once that is known, and never if it was no typing.
#pragma once

#include <QPointer>
#include <QString>

class QKeyEvent;
class QLineEdit;

namespace desktop {

class TriedLetter {
public:
    TriedLetter() = default;  // none

    // Types it. Precondition: none stands anywhere.
    void put(QLineEdit& line, const QKeyEvent& key);
    // Whether one stands somewhere.
    [[nodiscard]] bool stands() const { return m_stands; }
    // It was typed: the line tells so, if it took it.
    void keep();
    // It was not: the line is as it was before, unless something else has changed its text since.
    void takeBack();

private:
    QPointer<QLineEdit> m_line;
    QString m_before, m_with;  // the text
    int m_cursor = 0, m_selectedFrom = -1, m_selected = 0;
    bool m_wasModified = false;
    bool m_stands = false;
};

}  // namespace desktop
