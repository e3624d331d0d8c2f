// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A step of setting up; see setup_page.h.
#include "desktop/first_start/setup_page.h"

#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace desktop {

SetupPage::SetupPage(const QString& title, const QString& next, QWidget* parent)
    : QWidget(parent), m_title(title), m_next(next) {
    m_rows = new QVBoxLayout(this);
    m_rows->setContentsMargins(0, 0, 0, 0);
    m_rows->setSpacing(6);
}

QLabel* SetupPage::addText(const QString& text) {
    auto* label = textLabel(text);
    m_rows->addWidget(label);
    return label;
}

QLineEdit* SetupPage::addField(const QString& name, const QString& hint) {
    auto* field = new QLineEdit;
    field->setPlaceholderText(hint);
    field->setAccessibleName(name);
    addNamed(name, field);
    connect(field, &QLineEdit::returnPressed, this, [this] { focusNextChild(); });
    return field;
}

void SetupPage::addNamed(const QString& name, QWidget* field) {
    auto* label = new QLabel(name);
    label->setFont(fontFor(TextRole::Strong));
    label->setWordWrap(true);
    label->setBuddy(field);
    m_rows->addWidget(label);
    m_rows->addWidget(field);
    m_rows->addSpacing(4);
}

}  // namespace desktop
