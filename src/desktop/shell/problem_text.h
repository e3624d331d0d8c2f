// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A problem as a person reads it: the sentence, and below it its details.
#pragma once

#include "desktop/shell/text.h"
#include "station/problem.h"

namespace desktop {

[[nodiscard]] inline QString problemText(const station::Problem& problem) {
    auto text = shownText(problem.notice.text());
    for (const auto& detail : problem.details) text += QLatin1Char('\n') + shownText(detail);
    return text;
}

}  // namespace desktop
