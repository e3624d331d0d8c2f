// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bars; see status_bar_edge.h.
#include "desktop/theme/status_bar_edge.h"

#include "desktop/theme/appearance.h"

#include <QPainter>

namespace desktop {

namespace {

// Pieces of that length with gaps of the same.
void paintPieces(QPainter& painter, const QRect& bar, int length) {
    for (int top = bar.top(); top <= bar.bottom(); top += 2 * length)
        painter.fillRect(bar.left(), top, bar.width(), std::min(length, bar.bottom() - top + 1),
                         colours().text);
}

}  // namespace

void paintStatusEdge(QPainter& painter, const QRect& box, rules::CheckStatus status) {
    const QRect bar(box.left(), box.top(), statusEdge, box.height());
    switch (status) {
        case rules::CheckStatus::Current: painter.fillRect(bar, colours().text); return;
        case rules::CheckStatus::Due: paintPieces(painter, bar, 10); return;
        case rules::CheckStatus::Lapsed: paintPieces(painter, bar, 3); return;
        case rules::CheckStatus::Failed:
            painter.fillRect(bar.adjusted(0, 0, -5, 0), colours().text);
            painter.fillRect(bar.adjusted(5, 0, 0, 0), colours().text);
            return;
        case rules::CheckStatus::Exempt: return;
    }
}

}  // namespace desktop
