// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The field; see choice_field.h.
#include "desktop/bedside/acts/choice_field.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"

#include <QButtonGroup>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

ActFieldWidget::ActFieldWidget(ActField field, QWidget* parent)
    : QWidget(parent), m_field(std::move(field)) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(6);
    auto* label = new QLabel(m_field.label);
    label->setWordWrap(true);
    layout->addWidget(label);
    if (m_field.what == ActField::What::Text) {
        addLine();
        layout->addWidget(m_line);
        label->setBuddy(m_line);
    }
    if (m_field.choices.empty()) return;
    auto* buttons = new QWidget;
    new WrapLayout(WrapLayout::Manner::Packed, buttons);
    layout->addWidget(buttons);
    addChoices();
    for (auto* each : m_buttons) buttons->layout()->addWidget(each);
}

void ActFieldWidget::addLine() {
    m_line = new QLineEdit(shownText(m_field.value));
    auto name = m_field.label;
    m_line->setAccessibleName(name.remove(QLatin1Char('&')));
    connect(m_line, &QLineEdit::textChanged, this, &ActFieldWidget::changed);
}

void ActFieldWidget::addChoices() {
    auto* group = new QButtonGroup(this);
    const bool isChoice = m_field.what == ActField::What::Choice;
    group->setExclusive(isChoice);
    for (const auto& choice : m_field.choices) {
        const auto text =
            choice.note.isEmpty() ? choice.label : choice.label + QLatin1Char('\n') + choice.note;
        auto* button = new WrappedButton(text);
        button->setAccessibleName(choice.label);
        button->setAccessibleDescription(choice.note);
        m_buttons.push_back(button);
        if (!isChoice) {
            connect(button, &QPushButton::clicked, this,
                    [this, value = choice.value] { setText(shownText(value)); });
            continue;
        }
        button->setCheckable(true);
        button->setChecked(choice.value == m_field.value && !m_field.value.empty());
        group->addButton(button);
        connect(button, &QPushButton::toggled, this, &ActFieldWidget::changed);
    }
}

std::string ActFieldWidget::value() const {
    if (m_line != nullptr) return plainText(m_line->text().simplified());
    for (std::size_t at = 0; at < m_buttons.size(); ++at)
        if (m_buttons[at]->isChecked()) return m_field.choices[at].value;
    return {};
}

void ActFieldWidget::setText(const QString& text) {
    if (m_line != nullptr) m_line->setText(text);
}

}  // namespace desktop
