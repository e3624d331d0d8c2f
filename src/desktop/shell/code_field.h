// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A line to type into with a hint as long as there is room for: the longest that fits is shown. A
// code that is longer than the line is written smaller, down to the text at 100 %, so that all of
// it can be read.
#pragma once

#include <QLineEdit>
#include <QStringList>

namespace desktop {

class CodeField : public QLineEdit {
    Q_OBJECT
public:
    // Longest first, not empty; the first is its accessible name.
    explicit CodeField(QStringList hints, QWidget* parent = nullptr);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void chooseHint();
    void chooseSize();
    [[nodiscard]] int room() const;  // for a text

    QStringList m_hints;
    bool m_isSmall = false, m_isChoosing = false;
};

// What it needs so that a whole serial can be seen in it.
[[nodiscard]] int codeFieldWidth();

}  // namespace desktop
