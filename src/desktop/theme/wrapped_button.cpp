// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The button; see wrapped_button.h.
#include "desktop/theme/wrapped_button.h"

#include "desktop/theme/appearance.h"

#include <QPainter>
#include <QStyle>
#include <QStyleOptionButton>
#include <algorithm>

namespace desktop {

namespace {

// Between the text and the edges, border included.
constexpr int marginX = 16;
constexpr int marginY = 8;
constexpr int textFlags = Qt::AlignCenter | Qt::TextWordWrap | Qt::TextShowMnemonic;

}  // namespace

WrappedButton::WrappedButton(const QString& text, QWidget* parent) : QPushButton(text, parent) {
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void WrappedButton::setMain(bool isMain) {
    setProperty("main", isMain);
    style()->unpolish(this);
    style()->polish(this);
}

QSize WrappedButton::textSize(int width) const {
    return fontMetrics().boundingRect(QRect(0, 0, width, 10'000), textFlags, text()).size();
}

QSize WrappedButton::sizeHint() const {
    const auto whole = fontMetrics().size(Qt::TextShowMnemonic, text());
    // Letters may reach a little beyond what they are said to take.
    return {std::max(targetSize, whole.width() + 2 * marginX + 4),
            std::max(targetSize, whole.height() + 2 * marginY)};
}

// As narrow as its longest word.
QSize WrappedButton::minimumSizeHint() const {
    int widest = 0;
    for (const auto& word : text().split(QLatin1Char(' ')))
        widest = std::max(widest, fontMetrics().horizontalAdvance(word));
    return {std::max(targetSize, widest + 2 * marginX), targetSize};
}

int WrappedButton::heightForWidth(int width) const {
    return std::max(targetSize, textSize(width - 2 * marginX).height() + 2 * marginY);
}

void WrappedButton::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    QStyleOptionButton option;
    initStyleOption(&option);
    option.text.clear();
    style()->drawControl(QStyle::CE_PushButtonBevel, &option, &painter, this);
    const auto& hues = colours();
    const bool isFilled = isChecked() || property("main").toBool();
    const bool isOff = !isEnabled() || property("off").toBool();
    painter.setPen(isOff ? hues.quietText
                         : (isFilled ? hues.mainButtonText : hues.buttonText));
    painter.drawText(rect().adjusted(marginX, 0, -marginX, 0), textFlags, text());
}

}  // namespace desktop
