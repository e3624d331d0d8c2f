// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The row; see press_row.h.
#include "desktop/shell/press_row.h"

#include "desktop/theme/appearance.h"
#include "desktop/theme/verdict_chip.h"

#include <QFontMetrics>
#include <QPainter>
#include <algorithm>

namespace desktop {

namespace {

constexpr int marginLeft = chipEdge + 12;
constexpr int marginRight = 10;
constexpr int marginY = 3;

QFontMetrics metricsOf(TextRole role) {
    return QFontMetrics(fontFor(role));
}

int heightOf(const QString& text, TextRole role, int width) {
    return metricsOf(role).boundingRect(0, 0, width, 10'000, Qt::TextWordWrap, text).height();
}

}  // namespace

PressRow::PressRow(QWidget* parent) : QPushButton(parent) {
    setMinimumHeight(targetSize);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void PressRow::say(const QString& what, const QString& more) {
    if (m_what == what && m_more == more) return;
    m_what = what;
    m_more = more;
    setAccessibleName(more.isEmpty() ? what : what + QStringLiteral(": ") + more);
    updateGeometry();
    update();
}

void PressRow::setEdge(std::optional<QColor> hue) {
    m_edge = hue;
    update();
}

void PressRow::setBrief(bool isBrief) {
    if (std::exchange(m_isBrief, isBrief) == isBrief) return;
    updateGeometry();
    update();
}

// One below the other, or beside each other where large text leaves no room for two lines.
PressRow::Places PressRow::placesIn(int width) const {
    const int inside = width - marginLeft - marginRight;
    const int what = heightOf(m_what, TextRole::Strong, inside);
    Places places{{marginLeft, 0, inside, what}, {}, what + 2 * marginY};
    if (showsMore()) {
        const int wide =
            metricsOf(TextRole::Strong).horizontalAdvance(m_what + QStringLiteral("  "));
        const int more = heightOf(m_more, TextRole::Plain, inside);
        const bool isBeside =
            what + more + 2 * marginY > targetSize &&
            wide + metricsOf(TextRole::Plain).horizontalAdvance(m_more) <= inside;
        places.more = isBeside ? QRect(marginLeft + wide, 0, inside - wide, what)
                               : QRect(marginLeft, what, inside, more);
        places.height = 2 * marginY + (isBeside ? what : what + more);
    }
    places.height = std::max(targetSize, places.height);
    return places;
}

QSize PressRow::sizeHint() const {
    const int most = metricsOf(TextRole::Strong).averageCharWidth() * 24;  // beyond it they wrap
    int wide = metricsOf(TextRole::Strong).horizontalAdvance(m_what);
    if (showsMore())
        wide = std::max(wide, metricsOf(TextRole::Plain).horizontalAdvance(m_more));
    const int full = std::min(wide, most) + marginLeft + marginRight + 4;
    return {full, heightForWidth(full)};
}

QSize PressRow::minimumSizeHint() const {
    return {metricsOf(TextRole::Strong).averageCharWidth() * 14, targetSize};
}

int PressRow::heightForWidth(int width) const {
    return placesIn(width).height;
}

void PressRow::paintEvent(QPaintEvent* event) {
    QPushButton::paintEvent(event);
    QPainter painter(this);
    if (m_edge) painter.fillRect(QRect(4, 4, chipEdge, height() - 8), *m_edge);
    const auto& hues = colours();
    painter.setPen(isChecked()   ? hues.mainButtonText
                   : isEnabled() ? hues.buttonText
                                 : hues.quietText);
    const auto places = placesIn(width());
    const auto both = places.what | places.more;
    painter.translate(0, (height() - both.height()) / 2);
    painter.setFont(fontFor(TextRole::Strong));
    painter.drawText(places.what, Qt::TextWordWrap, m_what);
    if (!showsMore()) return;
    painter.setFont(fontFor(TextRole::Plain));
    painter.drawText(places.more, Qt::TextWordWrap | Qt::AlignVCenter, m_more);
}

}  // namespace desktop
