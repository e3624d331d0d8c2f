// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The row; see press_row.h.
#include "desktop/shell/press_row.h"

#include "desktop/theme/appearance.h"
#include "desktop/theme/verdict_chip.h"

#include <QEvent>
#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

PressRow::PressRow(QWidget* parent) : QPushButton(parent) {
    m_what = new QLabel;
    m_what->setFont(fontFor(TextRole::Strong));
    m_more = new QLabel;
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(chipEdge + 12, 6, 10, 6);
    layout->setSpacing(0);
    for (auto* label : {m_what, m_more}) {
        label->setWordWrap(true);
        label->setTextFormat(Qt::PlainText);
        label->setAttribute(Qt::WA_TransparentForMouseEvents);
        layout->addWidget(label);
    }
    setMinimumHeight(targetSize);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    connect(this, &QAbstractButton::toggled, this, &PressRow::takeColours);
    takeColours();
}

void PressRow::say(const QString& what, const QString& more) {
    if (m_what->text() == what && m_more->text() == more) return;
    m_what->setText(what);
    m_more->setText(more);
    m_more->setVisible(!more.isEmpty());
    setAccessibleName(more.isEmpty() ? what : what + QStringLiteral(": ") + more);
    updateGeometry();
}

void PressRow::setEdge(std::optional<QColor> hue) {
    m_edge = hue;
    update();
}

QSize PressRow::sizeHint() const {
    const auto margins = layout()->contentsMargins();
    const int most = m_what->fontMetrics().averageCharWidth() * 24;  // beyond it they wrap
    const int wide = std::max(m_what->fontMetrics().horizontalAdvance(m_what->text()),
                              m_more->fontMetrics().horizontalAdvance(m_more->text()));
    const int full = std::min(wide, most) + margins.left() + margins.right() + 4;
    return {full, heightForWidth(full)};
}

QSize PressRow::minimumSizeHint() const {
    return {m_what->fontMetrics().averageCharWidth() * 14, targetSize};
}

int PressRow::heightForWidth(int width) const {
    return std::max(targetSize, layout()->totalHeightForWidth(width));
}

void PressRow::paintEvent(QPaintEvent* event) {
    QPushButton::paintEvent(event);
    if (!m_edge) return;
    QPainter painter(this);
    painter.fillRect(QRect(4, 4, chipEdge, height() - 8), *m_edge);
}

void PressRow::changeEvent(QEvent* event) {
    QPushButton::changeEvent(event);
    if (event->type() == QEvent::EnabledChange && m_what != nullptr) takeColours();
}

// A label in a pressed button does not take the button's colour by itself.
void PressRow::takeColours() {
    const auto& hues = colours();
    const auto& text = isChecked() ? hues.mainButtonText
                       : isEnabled() ? hues.buttonText
                                     : hues.quietText;
    for (auto* label : {m_what, m_more}) {
        auto palette = label->palette();
        palette.setColor(QPalette::WindowText, text);
        label->setPalette(palette);
    }
}

}  // namespace desktop
