// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bar at the left of a check's row, whose form says what its word says: solid for current,
// dashed for due, double for failed, dotted for out of date, none for exempt.
#pragma once

#include "rules/assess.h"

#include <QRect>

class QPainter;

namespace desktop {

inline constexpr int statusEdge = 8;  // px wide

void paintStatusEdge(QPainter& painter, const QRect& box, rules::CheckStatus status);

}  // namespace desktop
