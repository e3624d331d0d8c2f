// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// How the whole window looks: theme and text size, and the sizes that follow from them. Every
// widget takes its measures from here and none in pixels of its own.
#pragma once

#include "desktop/theme/colours.h"

#include <QFont>

class QApplication;

namespace desktop {

// At 96 dpi 15 mm, and the gap of 4 mm between two of them: what a gloved finger hits.
inline constexpr int targetSize = 57;
inline constexpr int targetGap = 15;

struct Appearance {
    Theme theme = Theme::Light;
    int textPercent = 100;  // 100 to 200
};

// Sets palette, fonts and style of the application, also while it runs.
void apply(QApplication& application, const Appearance& appearance);

// As last applied.
[[nodiscard]] const Appearance& appearance();
[[nodiscard]] const Colours& colours();
// So large that on a small window what is pressed next goes before what is only read.
[[nodiscard]] bool isTextLarge();

enum class TextRole {
    Plain,
    Quiet,   // what may be passed over: who, when
    Strong,  // what is read first on a row
    Large,   // the next step, a verdict
    Title,   // the unit's serial, a page's head
};
// Figures are of one width.
[[nodiscard]] QFont fontFor(TextRole role);

}  // namespace desktop
