// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows of a history; see history_delegate.h.
#include "desktop/bedside/history_delegate.h"

#include "desktop/bedside/history_model.h"
#include "desktop/theme/appearance.h"

#include <QListView>
#include <QPainter>
#include <algorithm>
#include <vector>

namespace desktop {

namespace {

struct Piece {
    QRect box;
    QString text;
    QFont font;
    QColor colour;
};

struct Layout {
    std::vector<Piece> pieces;
    int height = 0;
};

constexpr int margin = 8;

int heightOf(const QString& text, const QFont& font, int width) {
    return QFontMetrics(font).boundingRect(0, 0, width, 10'000, Qt::TextWordWrap, text).height();
}

// Where each text of a row goes in that width.
Layout layOut(const QModelIndex& index, int width) {
    const auto& hues = colours();
    const auto plain = fontFor(TextRole::Plain);
    const auto quiet = fontFor(TextRole::Quiet);
    auto says = plain;
    const auto strike = index.data(HistoryModel::StrikeRole).toString();
    says.setStrikeOut(!strike.isEmpty());
    QStringList remarks{index.data(HistoryModel::UncountedRole).toString(), strike};
    remarks.removeAll(QString());
    const QFontMetrics metrics(plain);
    const int whenWidth = metrics.horizontalAdvance(QStringLiteral("28 Nov 2026 08:30 ")) + margin;
    const int whoWidth = metrics.averageCharWidth() * 24;
    const bool isNarrow = width < whenWidth + whoWidth + metrics.averageCharWidth() * 30;
    Layout layout;
    int y = margin;
    const auto add = [&](int left, int wide, const QString& text, const QFont& font,
                         const QColor& colour) {
        const int high = heightOf(text, font, wide);
        layout.pieces.push_back({QRect(left, y, wide, high), text, font, colour});
        return high;
    };
    const auto when = index.data(HistoryModel::WhenRole).toString();
    const auto who = index.data(HistoryModel::WhoRole).toString();
    const int all = width - 2 * margin;
    if (isNarrow) {
        y += add(margin, all, when + QStringLiteral(" · ") + who, quiet, hues.quietText);
        y += add(margin, all, index.data(HistoryModel::SaysRole).toString(), says, hues.text);
        for (const auto& remark : remarks) y += add(margin, all, remark, quiet, hues.text);
    } else {
        const int wide = all - whenWidth - whoWidth - margin;
        int end = y + add(margin, whenWidth, when, plain, hues.quietText);
        end = std::max(end, y + add(width - margin - whoWidth, whoWidth, who, quiet,
                                    hues.quietText));
        y += add(margin + whenWidth, wide, index.data(HistoryModel::SaysRole).toString(), says,
                 hues.text);
        for (const auto& remark : remarks)
            y += add(margin + whenWidth, wide, remark, quiet, hues.text);
        y = std::max(y, end);
    }
    layout.height = std::max(y + margin, targetSize);
    for (auto& piece : layout.pieces) piece.box.translate(0, (layout.height - y - margin) / 2);
    return layout;
}

}  // namespace

void HistoryDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const {
    const auto& hues = colours();
    painter->save();
    painter->fillRect(option.rect, hues.surface);
    const auto layout = layOut(index, option.rect.width());
    painter->translate(option.rect.topLeft());
    for (const auto& piece : layout.pieces) {
        painter->setFont(piece.font);
        painter->setPen(piece.colour);
        painter->drawText(piece.box, Qt::TextWordWrap, piece.text);
    }
    const QRect box(0, 0, option.rect.width(), option.rect.height());
    painter->setPen(hues.line);
    painter->drawLine(box.bottomLeft(), box.bottomRight());
    if (option.state & (QStyle::State_HasFocus | QStyle::State_Selected)) {
        painter->setPen(QPen(hues.focus, 3));
        painter->drawRect(box.adjusted(1, 1, -2, -2));
    }
    painter->restore();
}

QSize HistoryDelegate::sizeHint(const QStyleOptionViewItem& option,
                                const QModelIndex& index) const {
    const auto* view = qobject_cast<const QListView*>(option.widget);
    const int width = view != nullptr ? view->viewport()->width() : option.rect.width();
    return {width, layOut(index, width).height};
}

}  // namespace desktop
