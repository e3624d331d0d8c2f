// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The page; see scroll_page.h.
#include "desktop/theme/scroll_page.h"

namespace desktop {

QScrollArea* scrollPage(QWidget* page) {
    auto* scroll = new QScrollArea;
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    if (page != nullptr) scroll->setWidget(page);
    return scroll;
}

}  // namespace desktop
