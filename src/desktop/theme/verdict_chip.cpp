// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The chip; see verdict_chip.h.
#include "desktop/theme/verdict_chip.h"

#include "desktop/theme/appearance.h"

#include <QPainter>

namespace desktop {

void paintChip(QPainter& painter, const QRect& box, const Chip& chip) {
    const auto& hues = colours();
    painter.save();
    if (!chip.isOnRow) painter.fillRect(box, hues.surface);
    const QRect edge(box.left(), box.top(), chipEdge, box.height());
    const auto hue = edgeOf(hues, chip.verdict);
    const bool hatched = chip.verdict == rules::Verdict::Withdrawn;
    painter.fillRect(edge, hatched ? QBrush(hue, Qt::BDiagPattern) : QBrush(hue));
    if (hatched) {
        painter.setPen(hue);
        painter.drawRect(edge.adjusted(0, 0, -1, -1));
    }
    auto font = painter.font();
    font.setStrikeOut(chip.verdict == rules::Verdict::Retired);
    painter.setFont(font);
    painter.setPen(hues.text);
    const auto inside = box.adjusted(chipEdge + 8, 0, -8, 0);
    painter.drawText(inside, Qt::AlignVCenter | Qt::AlignLeft, chip.word);
    painter.restore();
}

VerdictChip::VerdictChip(QWidget* parent) : QWidget(parent) {
    setFont(fontFor(TextRole::Large));
}

void VerdictChip::show(const Chip& chip) {
    m_chip = chip;
    setAccessibleName(chip.word);
    updateGeometry();
    update();
}

QSize VerdictChip::sizeHint() const {
    const QFontMetrics metrics(font());
    return {chipEdge + 20 + metrics.horizontalAdvance(m_chip.word), metrics.height() + 12};
}

void VerdictChip::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setFont(font());
    paintChip(painter, rect(), m_chip);
}

}  // namespace desktop
