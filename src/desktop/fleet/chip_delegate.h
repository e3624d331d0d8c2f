// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Draws a verdict in a cell of a table as the chip that it is everywhere.
#pragma once

#include <QStyledItemDelegate>

namespace desktop {

class ChipDelegate : public QStyledItemDelegate {
public:
    // `role` gives the verdict as int.
    explicit ChipDelegate(int role, QObject* parent) : QStyledItemDelegate(parent), m_role(role) {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;

private:
    int m_role;
};

}  // namespace desktop
