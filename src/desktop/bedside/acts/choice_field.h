// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A field of a sheet: large buttons of which one is pressed, or a line to type into with proposals
// as buttons. Knows no entry.
#pragma once

#include "desktop/bedside/acts/act_form.h"

#include <QWidget>
#include <vector>

class QLineEdit;
class QPushButton;

namespace desktop {

class ActFieldWidget : public QWidget {
    Q_OBJECT
public:
    explicit ActFieldWidget(ActField field, QWidget* parent = nullptr);

    [[nodiscard]] const ActField& field() const { return m_field; }
    // "" if there is none.
    [[nodiscard]] std::string value() const;
    void setText(const QString& text);
    [[nodiscard]] QLineEdit* line() const { return m_line; }  // null of a choice

Q_SIGNALS:
    void changed();

private:
    void addChoices();
    void addLine();

    ActField m_field;
    QLineEdit* m_line = nullptr;
    std::vector<QPushButton*> m_buttons;  // as the choices
};

}  // namespace desktop
