// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The keys; see keypad.h.
#include "desktop/bedside/keypad.h"

#include "desktop/theme/appearance.h"

#include <QGridLayout>
#include <QLineEdit>
#include <QPushButton>

namespace desktop {

Keypad::Keypad(QLineEdit* field, QChar point, QWidget* parent) : QWidget(parent), m_field(field) {
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setSpacing(targetGap);
    const auto type = [this](QPushButton* key, const QString& text) {
        connect(key, &QPushButton::clicked, this, [this, text] {
            m_field->insert(text);
            m_field->setFocus();
        });
    };
    for (int digit = 1; digit <= 9; ++digit) {
        const auto text = QString::number(digit);
        type(addKey(text, 2 - (digit - 1) / 3, (digit - 1) % 3), text);
    }
    type(addKey(QStringLiteral("0"), 3, 1), QStringLiteral("0"));
    auto* separates = addKey(QString(point), 3, 0);
    separates->setAccessibleName(point == QLatin1Char(':') ? tr("Colon") : tr("Decimal point"));
    type(separates, QString(point));
    m_minus = addKey(QStringLiteral("−"), 3, 2);
    m_minus->setAccessibleName(tr("Minus"));
    connect(m_minus, &QPushButton::clicked, this, [this] {
        const auto text = m_field->text();
        m_field->setText(text.startsWith(QLatin1Char('-')) ? text.mid(1)
                                                           : QLatin1Char('-') + text);
        m_field->setFocus();
    });
    offerMinus(false);
    auto* erase = addKey(tr("Delete"), 0, 3);
    connect(erase, &QPushButton::clicked, this, [this] {
        m_field->backspace();
        m_field->setFocus();
    });
    auto* clear = addKey(tr("Clear"), 1, 3);
    connect(clear, &QPushButton::clicked, this, [this] {
        m_field->clear();
        m_field->setFocus();
    });
    if (point == QLatin1Char(':')) {
        auto* hyphen = addKey(QStringLiteral("-"), 3, 2);
        hyphen->setAccessibleName(tr("Hyphen"));
        type(hyphen, QStringLiteral("-"));
        type(addKey(tr("Blank"), 2, 3), QStringLiteral(" "));
    }
    grid->setColumnStretch(4, 1);
}

void Keypad::offerMinus(bool isOffered) {
    m_minus->setEnabled(isOffered);
    m_minus->setVisible(isOffered);
}

// The field keeps the focus: the keyboard has these keys itself.
QPushButton* Keypad::addKey(const QString& text, int row, int column) {
    auto* key = new QPushButton(text);
    key->setFocusPolicy(Qt::NoFocus);
    key->setFont(fontFor(TextRole::Large));
    static_cast<QGridLayout*>(layout())->addWidget(key, row, column);
    return key;
}

}  // namespace desktop
