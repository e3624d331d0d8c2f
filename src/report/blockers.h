// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands in the way of a unit, or comes up before it is ready, from the short form in which
// plans name it.
#pragma once

#include "rules/assess.h"
#include "words/context.h"

#include <string>

namespace report {

// A finding as a plan names it, "due leak": the one that stands, or else one to be.
[[nodiscard]] rules::Finding findingNamed(const rules::Assessment& assessment,
                                          const std::string& text);

// What blocks, as a sentence and what to do.
[[nodiscard]] std::string blockerText(const words::Context& context,
                                      const rules::Assessment& assessment,
                                      const std::string& blocker);

}  // namespace report
