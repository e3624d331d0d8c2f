// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a part's further attributes and a unit's features say to a person.
#pragma once

#include "words/context.h"

#include <string>
#include <string_view>

namespace words {

// A word that conditions of a rulebook look for, "dual_limb", is shown with blanks; any other text
// as shown() has it.
[[nodiscard]] std::string attributeText(std::string_view value);

// What an attribute is called, inside a sentence: "layout"; one that has no name in this language
// is shown as its key, with blanks.
[[nodiscard]] std::string attributeLabel(const Words& words, std::string_view attribute);

// By the edition's label, else the key with blanks.
[[nodiscard]] std::string featureLabel(const Context& context, const std::string& feature);

}  // namespace words
