// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows; see flow_layout.h.
#include "desktop/theme/flow_layout.h"

#include "desktop/theme/appearance.h"

#include <algorithm>

namespace desktop {

namespace {

struct Placed {
    QLayoutItem* item;
    QRect box;
};

// All of a row are as high as the highest.
void placeRow(std::vector<Placed>& row, int height) {
    for (auto& each : row) {
        each.box.setHeight(height);
        each.item->setGeometry(each.box);
    }
    row.clear();
}

}  // namespace

FlowLayout::FlowLayout(QWidget* parent) : QLayout(parent) {
    setContentsMargins(0, 0, 0, 0);
    setSpacing(targetGap);
}

FlowLayout::~FlowLayout() {
    for (auto* item : m_items) delete item;
}

void FlowLayout::addItem(QLayoutItem* item) {
    m_items.push_back(item);
}

QLayoutItem* FlowLayout::itemAt(int index) const {
    const auto place = static_cast<std::size_t>(index);
    return index >= 0 && place < m_items.size() ? m_items[place] : nullptr;
}

QLayoutItem* FlowLayout::takeAt(int index) {
    auto* item = itemAt(index);
    if (item != nullptr) m_items.erase(m_items.begin() + index);
    return item;
}

int FlowLayout::heightForWidth(int width) const {
    return arrange(QRect(0, 0, width, 0), false);
}

QSize FlowLayout::sizeHint() const {
    QSize size;
    for (const auto* item : m_items) {
        if (item->isEmpty()) continue;
        const auto hint = item->sizeHint();
        const int gap = size.isNull() ? 0 : spacing();
        size = {size.width() + gap + hint.width(), std::max(size.height(), hint.height())};
    }
    const auto margins = contentsMargins();
    return size + QSize(margins.left() + margins.right(), margins.top() + margins.bottom());
}

QSize FlowLayout::minimumSize() const {
    QSize size;
    for (const auto* item : m_items)
        if (!item->isEmpty()) size = size.expandedTo(item->minimumSize());
    const auto margins = contentsMargins();
    return size + QSize(margins.left() + margins.right(), margins.top() + margins.bottom());
}

void FlowLayout::setGeometry(const QRect& box) {
    QLayout::setGeometry(box);
    arrange(box, true);
}

int FlowLayout::arrange(const QRect& box, bool isPlacing) const {
    const auto inside = box.marginsRemoved(contentsMargins());
    int left = inside.left(), top = inside.top(), rowHeight = 0;
    std::vector<Placed> row;
    for (auto* item : m_items) {
        if (item->isEmpty()) continue;
        const int width = std::min(item->sizeHint().width(), inside.width());
        if (left > inside.left() && left + width > inside.right() + 1) {
            if (isPlacing) placeRow(row, rowHeight);
            left = inside.left();
            top += rowHeight + spacing();
            rowHeight = 0;
        }
        const int height =
            item->hasHeightForWidth() ? item->heightForWidth(width) : item->sizeHint().height();
        row.push_back({item, QRect(left, top, width, height)});
        rowHeight = std::max(rowHeight, height);
        left += width + spacing();
    }
    if (isPlacing) placeRow(row, rowHeight);
    return top + rowHeight - box.top() + contentsMargins().bottom();
}

}  // namespace desktop
