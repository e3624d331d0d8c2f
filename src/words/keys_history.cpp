// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences of the entries on one unit, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
history: struck(person time reason) later(duration)
window.no_time: says(text) safe do
history: at entered by done_by witness signed not_signed form batch moved_from record
)";

std::string_view historyKeys() {
    return table;
}

}  // namespace words
