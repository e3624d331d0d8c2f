// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The text; see told_text.h.
#include "desktop/shell/told_text.h"

#include <QLabel>
#include <QScrollBar>
#include <algorithm>

namespace desktop {

namespace {

// Of the window's height.
constexpr int mostShare = 8;

}  // namespace

ToldText::ToldText(QWidget* parent) : QScrollArea(parent) {
    m_label = new QLabel;
    m_label->setWordWrap(true);
    m_label->setTextFormat(Qt::PlainText);
    m_label->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    m_label->setAccessibleName(tr("What was told last"));
    setWidget(m_label);
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    hide();
}

void ToldText::setText(const QString& text) {
    m_label->setText(text);
    setVisible(!text.isEmpty());
    verticalScrollBar()->setValue(0);
    fit();
}

QSize ToldText::sizeHint() const {
    const int line = m_label->fontMetrics().lineSpacing();
    // Whole lines, so that none is seen by half.
    const int most = std::max(2, window()->height() / mostShare / line) * line;
    const int wanted = m_label->heightForWidth(std::max(1, viewport()->width()));
    return {m_label->sizeHint().width(), std::clamp(wanted, line, most)};
}

void ToldText::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    fit();
}

void ToldText::fit() {
    const int wanted = m_label->heightForWidth(std::max(1, viewport()->width()));
    m_label->setMinimumHeight(std::max(0, wanted));
    updateGeometry();
}

}  // namespace desktop
