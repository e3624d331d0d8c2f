// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The field; see code_field.h.
#include "desktop/shell/code_field.h"

#include "desktop/theme/appearance.h"

#include <QEvent>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

// Edges, padding and the press that empties it.
constexpr int besideText = 64;
constexpr int lettersOfSerial = 14;

}  // namespace

CodeField::CodeField(QStringList hints, QWidget* parent)
    : QLineEdit(parent), m_hints(std::move(hints)) {
    setAccessibleName(m_hints.front());
    setClearButtonEnabled(true);
    connect(this, &QLineEdit::textChanged, this, &CodeField::chooseSize);
    chooseHint();
}

void CodeField::resizeEvent(QResizeEvent* event) {
    QLineEdit::resizeEvent(event);
    chooseHint();
    chooseSize();
}

void CodeField::changeEvent(QEvent* event) {
    QLineEdit::changeEvent(event);
    if (event->type() != QEvent::FontChange || m_isChoosing) return;
    chooseHint();
    chooseSize();
}

void CodeField::chooseHint() {
    for (const auto& hint : m_hints) {
        const bool isLast = &hint == &m_hints.back();
        if (!isLast && fontMetrics().horizontalAdvance(hint) > room()) continue;
        setPlaceholderText(hint);
        return;
    }
}

int CodeField::room() const {
    return width() - besideText;
}

void CodeField::chooseSize() {
    auto chosen = fontFor(TextRole::Plain);
    const int wide = QFontMetrics(chosen).horizontalAdvance(text());
    const bool isSmall = wide > room() && appearance().textPercent > 100;
    if (!isSmall && !m_isSmall) return;
    const auto whole = chosen.pointSizeF();
    if (isSmall)
        chosen.setPointSizeF(
            std::max(whole * 100 / appearance().textPercent, whole * room() / wide));
    m_isSmall = isSmall;
    m_isChoosing = true;
    setFont(isSmall ? chosen : QFont());
    m_isChoosing = false;
}

int codeFieldWidth() {
    return QFontMetrics(fontFor(TextRole::Plain)).averageCharWidth() * lettersOfSerial + besideText;
}

}  // namespace desktop
