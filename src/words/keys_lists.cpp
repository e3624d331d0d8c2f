// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of the lists of people and of imports, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
people_list: title key name roles until pin badge yes no no_end left(day) not_in_log locked
people_list: waits(count wait) nobody unopened(logbook) unlock(logbook)
imports: title none when person who(person key) added skipped file
)";

std::string_view listKeys() {
    return table;
}

}  // namespace words
