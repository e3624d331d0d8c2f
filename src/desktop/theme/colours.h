// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every colour of the window, for each of its two themes, and which are seen one on the other. A
// colour never says anything by itself: a word stands with it.
#pragma once

#include "rules/assess.h"

#include <QColor>
#include <vector>

namespace desktop {

enum class Theme { Light, Dark };

struct Colours {
    QColor window, surface, text, quietText, line;  // quiet: what may be passed over
    QColor button, buttonText, mainButton, mainButtonText, focus;
    QColor past, pastText;  // a view of the past, across its head
    QColor ready, notReady, inUse, withdrawn, retired;  // edges of verdicts
};

[[nodiscard]] const Colours& coloursOf(Theme theme);

[[nodiscard]] QColor edgeOf(const Colours& colours, rules::Verdict verdict);

// What is drawn on what, and the contrast it must have by WCAG 2.1: 7 for the words of verdicts,
// 4.5 for other text, 3 for edges and bars.
struct ColourPair {
    const char* what;
    QColor above, below;
    double least;
};
[[nodiscard]] std::vector<ColourPair> colourPairs(const Colours& colours);

// The contrast ratio of WCAG 2.1, from 1 to 21.
[[nodiscard]] double contrast(const QColor& one, const QColor& other);

}  // namespace desktop
