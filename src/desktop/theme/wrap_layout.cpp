// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The wrapping row; see wrap_layout.h.
#include "desktop/theme/wrap_layout.h"

#include "desktop/theme/appearance.h"

#include <QWidget>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

int heightOf(QLayoutItem& item, int width) {
    return std::max(item.hasHeightForWidth() ? item.heightForWidth(width)
                                             : item.sizeHint().height(),
                    item.minimumSize().height());
}

// What grows is asked for the least that it needs.
int widthOf(const QLayoutItem& item) {
    if (item.expandingDirections() & Qt::Horizontal) return item.minimumSize().width();
    return std::max(item.sizeHint().width(), item.minimumSize().width());
}

}  // namespace

WrapLayout::WrapLayout(Manner manner, QWidget* parent) : QLayout(parent), m_manner(manner) {
    setContentsMargins(0, 0, 0, 0);
    setSpacing(targetGap);
}

WrapLayout::~WrapLayout() {
    qDeleteAll(m_items);
}

void WrapLayout::addItem(QLayoutItem* item) {
    m_items.append(item);
}

QLayoutItem* WrapLayout::itemAt(int index) const {
    return index >= 0 && index < count() ? m_items.at(index) : nullptr;
}

QLayoutItem* WrapLayout::takeAt(int index) {
    return index >= 0 && index < count() ? m_items.takeAt(index) : nullptr;
}

int WrapLayout::heightForWidth(int width) const {
    return arrange({0, 0, width, 0}, false);
}

QSize WrapLayout::sizeHint() const {
    int wide = 0;
    int high = 0;
    for (const auto* item : m_items) {
        if (item->isEmpty()) continue;
        wide += widthOf(*item) + (wide > 0 ? spacing() : 0);
        high = std::max(high, item->sizeHint().height());
    }
    return {wide, high};
}

QSize WrapLayout::minimumSize() const {
    QSize size(0, 0);
    for (const auto* item : m_items)
        if (!item->isEmpty()) size = size.expandedTo(item->minimumSize());
    return size;
}

void WrapLayout::setGeometry(const QRect& box) {
    QLayout::setGeometry(box);
    arrange(box, true);
}

QList<WrapLayout::Line> WrapLayout::linesFor(int width) const {
    QList<Line> lines;
    int taken = 0;
    for (auto* item : m_items) {
        if (item->isEmpty()) continue;
        const int wants = widthOf(*item) + (taken > 0 ? spacing() : 0);
        if (lines.isEmpty() || taken + wants > width) {
            lines.append(Line());
            taken = widthOf(*item);
        } else {
            taken += wants;
        }
        lines.last().append(item);
    }
    return lines;
}

int WrapLayout::arrange(const QRect& box, bool move) const {
    int y = box.top();
    for (const auto& line : linesFor(box.width())) {
        const auto share = (box.width() - spacing() * (static_cast<int>(line.size()) - 1)) /
                           static_cast<int>(line.size());
        // Equal parts where all fit into one, else what each needs.
        const bool isSpread =
            m_manner == Manner::Spread &&
            (line.size() == 1 || std::all_of(line.begin(), line.end(), [&](const auto* item) {
                 return widthOf(*item) <= share;
             }));
        const auto width = [&](const QLayoutItem& item) {
            return isSpread ? share : std::min(widthOf(item), box.width());
        };
        int high = 0;
        for (auto* item : line) high = std::max(high, heightOf(*item, width(*item)));
        int rest = isSpread ? 0 : box.width() - spacing() * (static_cast<int>(line.size()) - 1);
        for (const auto* item : line) rest -= isSpread ? 0 : width(*item);
        int x = box.left();
        for (auto* item : line) {
            const bool grows = rest > 0 && (item->expandingDirections() & Qt::Horizontal);
            const int wide = width(*item) + (grows ? std::exchange(rest, 0) : 0);
            if (move) item->setGeometry({x, y, wide, high});
            x += wide + spacing();
        }
        y += high + spacing();
    }
    return std::max(0, y - box.top() - spacing());
}

}  // namespace desktop
