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

// By the edition's label, else the key with blanks.
[[nodiscard]] std::string featureLabel(const Context& context, const std::string& feature);

}  // namespace words
