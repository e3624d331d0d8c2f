// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a department should think about before it takes a rulebook, though it may. Judges only what
// could be read.
#pragma once

#include "rules/condition_reader.h"
#include "rules/rulebook.h"
#include "rules/toml_field.h"

namespace rules {

void warnOf(const Rulebook& rulebook, const toml::table& root, const NamesGiven& names,
            RemarkList& warnings);

}  // namespace rules
