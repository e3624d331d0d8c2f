// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Typed times; see typed_time.h.
#include "desktop/shell/typed_time.h"

#include <QRegularExpression>

namespace desktop {

QString completedTime(const QString& typed) {
    static const QRegularExpression bare(QStringLiteral("(^| )(\\d{1,2})[:.]?(\\d{2})(?=$| )"));
    auto text = typed.simplified();
    const auto found = bare.match(text);
    if (!found.hasMatch()) return text;
    const auto time = found.captured(1) + found.captured(2).rightJustified(2, QLatin1Char('0')) +
                      QLatin1Char(':') + found.captured(3);
    return text.replace(found.capturedStart(), found.capturedLength(), time);
}

}  // namespace desktop
