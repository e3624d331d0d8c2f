// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a rulebook's sections say of each other: checks that wait for each other in a circle, and a
// choice whose key stands for something else as well. Single unknown names are found on reading.
#pragma once

#include "rules/rulebook.h"
#include "rules/toml_field.h"

namespace rules {

// Cycle, at the `after` element that closes it.
void refuseCycles(const Rulebook& rulebook, const toml::table& root, RemarkList& faults);

// KeyTaken; detail: the path of the other.
void refuseTakenKeys(const Field& choices, const toml::table& root, RemarkList& faults);

}  // namespace rules
