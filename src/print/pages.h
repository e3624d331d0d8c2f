// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A paper laid out and drawn page by page on whatever takes pages. For paper.cpp only.
#pragma once

#include "print/paper.h"

class QPagedPaintDevice;

namespace print {

// How many pages were drawn; none if the device could not be drawn on.
[[nodiscard]] int drawPages(QPagedPaintDevice& device, const Paper& paper);

}  // namespace print
