// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The field; see pin_field.h.
#include "desktop/shell/pin_field.h"

#include "desktop/theme/appearance.h"

#include <QKeyEvent>
#include <QPainter>
#include <utility>

namespace desktop {

PinField::PinField(const QString& name, QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(name);
    setMinimumHeight(targetSize);
    setProperty("typedInto", true);
}

station::Secret PinField::take() {
    auto taken = std::exchange(m_secret, station::Secret());
    m_hasLetters = false;
    update();
    Q_EMIT changed();
    return taken;
}

QSize PinField::sizeHint() const {
    return {fontMetrics().averageCharWidth() * 24, targetSize};
}

void PinField::keyPressEvent(QKeyEvent* event) {
    const int key = event->key();
    if (key == Qt::Key_Return || key == Qt::Key_Enter) {
        // A code that was scanned slowly is no try.
        if (std::exchange(m_hasLetters, false))
            (void)take();
        else
            Q_EMIT entered();
        return;
    }
    const auto text = event->text();
    const bool isLetter = !text.isEmpty() && text.at(0).isPrint() && !text.at(0).isDigit();
    m_hasLetters = m_hasLetters || isLetter;
    if (key == Qt::Key_Backspace) {
        m_secret.removeLast();
    } else if (key == Qt::Key_Delete) {
        m_secret.clear();
        m_hasLetters = false;
    } else if (key >= Qt::Key_0 && key <= Qt::Key_9) {
        m_secret.add(static_cast<char>('0' + (key - Qt::Key_0)));
    } else {
        QWidget::keyPressEvent(event);
        return;
    }
    update();
    Q_EMIT changed();
}

void PinField::paintEvent(QPaintEvent*) {
    const auto& hues = colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(hues.surface);
    painter.setPen(hasFocus() ? QPen(hues.focus, 3) : QPen(hues.line, 2));
    painter.drawRoundedRect(rect().adjusted(2, 2, -2, -2), 6, 6);
    painter.setPen(Qt::NoPen);
    painter.setBrush(hues.text);
    const int radius = fontMetrics().averageCharWidth() / 2;
    const auto digits = static_cast<int>(m_secret.text().size());
    for (int i = 0; i < digits; ++i)
        painter.drawEllipse(QPoint(18 + i * 3 * radius, height() / 2), radius, radius);
}

void PinField::focusInEvent(QFocusEvent*) {
    update();
}

void PinField::focusOutEvent(QFocusEvent*) {
    update();
}

}  // namespace desktop
