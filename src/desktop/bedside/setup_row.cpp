// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The row; see setup_row.h.
#include "desktop/bedside/setup_row.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "words/words.h"

#include <QLabel>
#include <QVBoxLayout>

namespace desktop {

namespace {

// As wide as text and buttons side by side want it, at 100 %.
constexpr int sideBySide = 860;

QString moreOf(const report::FittedText& fitted) {
    QStringList parts{SetupRow::tr("since %1").arg(shownText(fitted.since))};
    if (!fitted.expires.empty()) parts << SetupRow::tr("expires %1").arg(shownText(fitted.expires));
    if (!fitted.groups.empty()) parts << SetupRow::tr("for %1").arg(shownText(fitted.groups));
    if (!fitted.life.empty()) parts << shownText(fitted.life);
    for (const auto& [name, value] : fitted.further)
        parts << shownText(name) + QStringLiteral(": ") + shownText(value);
    return parts.join(QStringLiteral(" · "));
}

QString titleOf(const report::SetupPosition& position) {
    auto title = shownText(position.label);
    if (!position.named) return SetupRow::tr("%1, of an earlier edition").arg(title);
    if (!position.choice.empty())
        return title + QStringLiteral(" · ") + shownText(position.choice);
    return title;
}

}  // namespace

SetupRow::SetupRow(QWidget* parent) : QWidget(parent) {
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_layout = new QBoxLayout(QBoxLayout::TopToBottom, this);
    m_layout->setContentsMargins(12, 8, 12, 8);
    m_layout->setSpacing(10);
    auto* texts = new QVBoxLayout;
    texts->setSpacing(3);
    for (auto [label, role] : {std::pair(&m_title, TextRole::Strong),
                               std::pair(&m_fitted, TextRole::Plain),
                               std::pair(&m_wrong, TextRole::Strong),
                               std::pair(&m_more, TextRole::Quiet)}) {
        *label = textLabel({}, role);
        texts->addWidget(*label);
    }
    auto* buttons = new QWidget;
    auto* flow = new WrapLayout(WrapLayout::Manner::Packed, buttons);
    for (auto** button : {&m_putBack, &m_fit, &m_remove, &m_reprocess}) {
        *button = new WrappedButton;
        flow->addWidget(*button);
    }
    m_layout->addLayout(texts, 1);
    m_layout->addWidget(buttons);
    connect(m_putBack, &QPushButton::clicked, this, &SetupRow::putBackWanted);
    connect(m_fit, &QPushButton::clicked, this, &SetupRow::fitWanted);
    connect(m_remove, &QPushButton::clicked, this, &SetupRow::removeWanted);
    connect(m_reprocess, &QPushButton::clicked, this, &SetupRow::reprocessWanted);
}

void SetupRow::show(const report::SetupPosition& position) {
    const auto& fitted = position.fitted;
    const auto label = shownText(position.label);
    setAccessibleName(label);
    m_title->setText(titleOf(position));
    m_fitted->setText(!fitted ? (position.required ? tr("Empty, and wanted") : tr("Empty"))
                      : fitted->name.empty() ? tr("Fitted, no serial or lot stated")
                                             : shownText(fitted->name));
    QStringList wrong;
    for (const auto& each : position.wrong)
        wrong << shownText(words::capitalized(each));
    m_wrong->setText(wrong.join(QLatin1Char('\n')));
    m_wrong->setVisible(!wrong.isEmpty());
    m_more->setText(fitted ? moreOf(*fitted) : QString());
    m_more->setVisible(fitted.has_value());
    const auto name = [&label](WrappedButton& button, const QString& text, bool isShown) {
        button.setText(text);
        button.setAccessibleName(text + QStringLiteral(": ") + label);
        button.setVisible(isShown);
    };
    const auto& putBack = position.putBack;
    name(*m_putBack, putBack ? tr("Put back: %1").arg(buttonText(putBack->summary)) : QString(),
         putBack.has_value());
    name(*m_fit, fitted ? tr("Swap") : tr("Fit"), position.named);
    name(*m_remove, tr("Take out"), fitted.has_value());
    name(*m_reprocess, tr("Reprocessing"), fitted && position.canReprocess);
}

void SetupRow::holdPutBack(bool isHeld) {
    m_putBack->setEnabled(!isHeld);
}

void SetupRow::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    m_layout->setDirection(width() * 100 >= sideBySide * appearance().textPercent
                               ? QBoxLayout::LeftToRight
                               : QBoxLayout::TopToBottom);
}

}  // namespace desktop
