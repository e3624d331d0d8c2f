// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Texts that are only read: they wrap, whatever the width, and nothing in them is taken for markup.
#pragma once

#include "desktop/theme/appearance.h"

class QLabel;
class QString;

namespace desktop {

[[nodiscard]] QLabel* textLabel(const QString& text, TextRole role = TextRole::Plain);

// The same for a text in which a word between asterisks is meant to stand out.
[[nodiscard]] QLabel* emphasisLabel(const QString& text, TextRole role = TextRole::Plain);

// That text as markup: "*Ready* means" with the word in italics.
[[nodiscard]] QString emphasised(const QString& text);

}  // namespace desktop
