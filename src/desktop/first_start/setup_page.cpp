// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A step of setting up; see setup_page.h.
#include "desktop/first_start/setup_page.h"

#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"

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

QLineEdit* SetupPage::makeField(const QString& name, const QString& hint) {
    auto* field = new QLineEdit;
    field->setPlaceholderText(hint);
    field->setAccessibleName(name);
    connect(field, &QLineEdit::returnPressed, this, [this] { focusNextChild(); });
    return field;
}

QLineEdit* SetupPage::addField(const QString& name, const QString& hint) {
    auto* field = makeField(name, hint);
    addNamed(name, field);
    return field;
}

std::vector<QLineEdit*> SetupPage::addFields(
    const std::vector<std::pair<QString, QString>>& fields) {
    auto* row = new QWidget;
    auto* layout = new WrapLayout(WrapLayout::Manner::Spread, row);
    std::vector<QLineEdit*> added;
    for (const auto& [name, hint] : fields) {
        auto* cell = new QWidget;
        auto* rows = new QVBoxLayout(cell);
        rows->setContentsMargins(0, 0, 0, 0);
        rows->setSpacing(m_rows->spacing());
        added.push_back(makeField(name, hint));
        SetupPage::name(name, added.back(), *rows);
        layout->addWidget(cell);
    }
    m_rows->addWidget(row);
    m_rows->addSpacing(4);
    return added;
}

void SetupPage::name(const QString& name, QWidget* field, QVBoxLayout& rows) {
    auto* label = new QLabel(name);
    label->setFont(fontFor(TextRole::Strong));
    label->setWordWrap(true);
    label->setBuddy(field);
    rows.addWidget(label);
    rows.addWidget(field);
}

void SetupPage::addNamed(const QString& name, QWidget* field) {
    SetupPage::name(name, field, *m_rows);
    m_rows->addSpacing(4);
}

}  // namespace desktop
