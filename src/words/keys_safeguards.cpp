// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences that stand between a slip and what it would do to a logbook or its department.
// Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
safeguard.letters: says(word) safe do(word)
)";

std::string_view safeguardKeys() {
    return table;
}

}  // namespace words
