// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Chips in cells; see chip_delegate.h.
#include "desktop/fleet/chip_delegate.h"

#include "desktop/theme/verdict_chip.h"

#include <QApplication>
#include <QPainter>
#include <QStyle>

namespace desktop {

void ChipDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    auto background = option;
    initStyleOption(&background, index);
    const auto* widget = option.widget;
    const auto* style = widget != nullptr ? widget->style() : QApplication::style();
    style->drawPrimitive(QStyle::PE_PanelItemViewItem, &background, painter, widget);
    painter->setFont(option.font);
    const bool isSelected = option.state.testFlag(QStyle::State_Selected);
    paintChip(*painter, option.rect.adjusted(3, 2, -3, -2),
              {static_cast<rules::Verdict>(index.data(m_role).toInt()), index.data().toString(),
               !isSelected});
}

QSize ChipDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    auto size = QStyledItemDelegate::sizeHint(option, index);
    size.rwidth() += chipEdge + 22;
    return size;
}

}  // namespace desktop
