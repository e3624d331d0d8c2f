// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// An answer as a page of the screen: what is in doubt first, then the answer, and last what it
// rests on. Every text is shown as it is; none is taken for markup.
#pragma once

#include "report/outline.h"

class QString;

namespace desktop {

[[nodiscard]] QString htmlOf(const report::Outline& outline);

}  // namespace desktop
