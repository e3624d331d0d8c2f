// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where the focus goes when a part of a desk is asked for by its key.
#pragma once

class QWidget;

namespace desktop {

// Puts the focus on the first within it that takes it by Tab; whether there is one.
bool focusFirst(const QWidget& part);

}  // namespace desktop
