// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first in a part; see first_focus.h.
#include "desktop/shell/first_focus.h"

#include <QWidget>

namespace desktop {

bool focusFirst(const QWidget& part) {
    const auto takes = [&part](const QWidget* each) {
        return part.isAncestorOf(each) && each->isVisible() && each->isEnabled() &&
               (each->focusPolicy() & Qt::TabFocus) != 0;
    };
    for (auto* each = part.nextInFocusChain(); each != &part; each = each->nextInFocusChain()) {
        if (!takes(each)) continue;
        each->setFocus(Qt::ShortcutFocusReason);
        return true;
    }
    return false;
}

}  // namespace desktop
