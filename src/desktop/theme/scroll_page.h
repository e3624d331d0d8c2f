// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A page that scrolls up and down where the window is too low for it, and is never wider than that.
#pragma once

#include <QScrollArea>

namespace desktop {

// Owns `page`, which may be null for one that is set later. The tab key passes it by. Whatever on
// it gets the focus, but by a press of the mouse, comes into sight.
[[nodiscard]] QScrollArea* scrollPage(QWidget* page = nullptr);

}  // namespace desktop
