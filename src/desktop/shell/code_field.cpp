// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The field; see code_field.h.
#include "desktop/shell/code_field.h"

#include <QEvent>
#include <utility>

namespace desktop {

namespace {

// Edges, padding and the press that empties it.
constexpr int besideText = 64;
constexpr int lettersOfSerial = 10;

}  // namespace

CodeField::CodeField(QStringList hints, QWidget* parent)
    : QLineEdit(parent), m_hints(std::move(hints)) {
    setAccessibleName(m_hints.front());
    setClearButtonEnabled(true);
    chooseHint();
}

void CodeField::resizeEvent(QResizeEvent* event) {
    QLineEdit::resizeEvent(event);
    chooseHint();
}

void CodeField::changeEvent(QEvent* event) {
    QLineEdit::changeEvent(event);
    if (event->type() == QEvent::FontChange) chooseHint();
}

void CodeField::chooseHint() {
    for (const auto& hint : m_hints) {
        const bool isLast = &hint == &m_hints.back();
        if (!isLast && fontMetrics().horizontalAdvance(hint) > width() - besideText) continue;
        setPlaceholderText(hint);
        return;
    }
}

int codeFieldWidth(const QLineEdit& field) {
    return field.fontMetrics().averageCharWidth() * lettersOfSerial + besideText;
}

}  // namespace desktop
