// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Chips in cells; see chip_delegate.h.
#include "desktop/fleet/chip_delegate.h"

#include "desktop/theme/verdict_chip.h"

#include <QPainter>

namespace desktop {

void ChipDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    auto background = option;
    initStyleOption(&background, index);
    background.text.clear();
    QStyledItemDelegate::paint(painter, background, QModelIndex());
    painter->setFont(option.font);
    paintChip(*painter, option.rect.adjusted(3, 2, -3, -2),
              {static_cast<rules::Verdict>(index.data(m_role).toInt()), index.data().toString()});
}

QSize ChipDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    auto size = QStyledItemDelegate::sizeHint(option, index);
    size.rwidth() += chipEdge + 22;
    return size;
}

}  // namespace desktop
