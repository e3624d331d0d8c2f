// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who can lift what stands in the way of ready: the roles that the policy edition names for it, and
// the persons who hold them.
#pragma once

#include "words/context.h"

#include <string>
#include <string_view>

namespace words {

// Of a blocker of a plan, "withdrawn repair", "fault screen", "in_use" …: "This can be lifted by:
// Biomedical engineer (B. Wren or I. Okonjo)." Empty for one that the steps of a way to ready would
// put right.
[[nodiscard]] std::string lifters(const Context& context, std::string_view blocker);

}  // namespace words
