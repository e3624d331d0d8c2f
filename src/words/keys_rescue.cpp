// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of salvaging, restoring and earlier heads, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
rescue: salvaged(count path) missing(record last) cut_off(record last) changed(record last)
rescue: readable(count records) range(record last) none_known_lacking to_complete
rescue: put_aside(path) restored(path station)
rescue: later(count) later_at_least(count) later_unknown later_other(count)
rescue: undone(count path) unread_pages(count) nameless(count) later_damaged other_log
rescue: journal_no_plain_file(path) journal_not_permitted(path) journal_not_given(path detail)
rescue: journal_strange(path) journal_torn(path) journal_aside(path)
rescue: unnoted(stations) none_else_lacking
rescue: seals_only(path) held_file_not(path) held_in_part(path)
rescue: not_carried(path) begin_anew(path station) held_against(path) not_against(path)
rescue: unread_heads(path) no_hash(record seen) more_unread(count) compared(count stations)
rescue: not_compared(stations)
rescue.nothing: says(path) safe do
rescue.backup_not_sound: says(path) safe do
rescue.same_file: says(path) safe do
rescue.same_second: says(aside) safe do
rescue.no_heads: says(path) safe do
break.not_as_noted: says(record) do
)";

std::string_view rescueKeys() {
    return table;
}

}  // namespace words
