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
    return arrange({0, 0, width, 0}, false).all;
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

QList<WrapLayout::Line> WrapLayout::linesFor(const Line& items, int width) const {
    QList<Line> lines;
    int taken = 0;
    for (auto* item : items) {
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

WrapLayout::Heights WrapLayout::arrange(const QRect& box, bool move) const {
    Line shown;
    for (auto* item : m_items)
        if (!item->isEmpty()) shown.append(item);
    return m_manner == Manner::Foot && shown.size() > 1 ? arrangeFoot(shown, box, move)
                                                        : arrangeLines(shown, box, 0, move);
}

// Equal parts where all fit into one, else what each needs.
QList<int> WrapLayout::widthsOf(const Line& line, int width) const {
    const int whole = width - spacing() * (static_cast<int>(line.size()) - 1);
    const int share = whole / static_cast<int>(line.size());
    const bool isSpread =
        m_manner != Manner::Packed &&
        (line.size() == 1 || std::all_of(line.begin(), line.end(), [&](const auto* item) {
             return widthOf(*item) <= share;
         }));
    QList<int> widths;
    int rest = whole;
    for (const auto* item : line) {
        widths.append(isSpread ? share : std::min(widthOf(*item), width));
        rest -= widths.last();
    }
    for (int i = 0; !isSpread && rest > 0 && i < line.size(); ++i)
        if (line[i]->expandingDirections() & Qt::Horizontal) widths[i] += std::exchange(rest, 0);
    return widths;
}

void WrapLayout::arrangeLine(const Line& line, const QRect& box) const {
    const auto widths = widthsOf(line, box.width());
    int x = box.left();
    for (int i = 0; i < line.size(); ++i) {
        line[i]->setGeometry({x, box.top(), widths[i], box.height()});
        x += widths[i] + spacing();
    }
}

WrapLayout::Heights WrapLayout::arrangeLines(const Line& items, const QRect& box, int leastLast,
                                             bool move) const {
    Heights heights;
    const auto lines = linesFor(items, box.width());
    for (const auto& line : lines) {
        const auto widths = widthsOf(line, box.width());
        int high = &line == &lines.last() ? leastLast : 0;
        for (int i = 0; i < line.size(); ++i) high = std::max(high, heightOf(*line[i], widths[i]));
        const int y = box.top() + heights.all + (heights.all > 0 ? spacing() : 0);
        if (move) arrangeLine(line, {box.left(), y, box.width(), high});
        heights = {y - box.top() + high, high};
    }
    return heights;
}

// A third of the width is enough for the way back, which then wraps.
WrapLayout::Heights WrapLayout::arrangeFoot(const Line& items, const QRect& box,
                                            bool move) const {
    auto* first = items.front();
    const int wide = std::max(first->minimumSize().width(),
                              std::min(widthOf(*first), (box.width() - spacing()) / 3));
    const int aside = wide + spacing();
    const auto heights = arrangeLines(items.mid(1), box.adjusted(aside, 0, 0, 0),
                                      heightOf(*first, wide), move);
    if (move)
        first->setGeometry(
            {box.left(), box.top() + heights.all - heights.last, wide, heights.last});
    return heights;
}

}  // namespace desktop
