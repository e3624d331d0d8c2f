// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A line to type into with a hint as long as there is room for: the longest that fits is shown.
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

    QStringList m_hints;
};

// What it needs so that a whole serial can be seen in it.
[[nodiscard]] int codeFieldWidth(const QLineEdit& field);

}  // namespace desktop
