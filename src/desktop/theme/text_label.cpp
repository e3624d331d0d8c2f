// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Labels; see text_label.h.
#include "desktop/theme/text_label.h"

#include <QLabel>
#include <QRegularExpression>

namespace desktop {

QLabel* textLabel(const QString& text, TextRole role) {
    auto* label = new QLabel;
    label->setTextFormat(Qt::PlainText);
    label->setText(text);
    label->setWordWrap(true);
    label->setFont(fontFor(role));
    return label;
}

QLabel* emphasisLabel(const QString& text, TextRole role) {
    auto* label = textLabel({}, role);
    label->setTextFormat(Qt::RichText);
    label->setText(emphasised(text));
    label->setAccessibleName(QString(text).remove(QLatin1Char('*')));
    return label;
}

QString emphasised(const QString& text) {
    static const QRegularExpression marked(QStringLiteral("\\*([^*]+)\\*"));
    return text.toHtmlEscaped().replace(marked, QStringLiteral("<i>\\1</i>"));
}

}  // namespace desktop
