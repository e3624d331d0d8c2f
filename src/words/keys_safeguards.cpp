// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences that stand between a slip and what it would do to a logbook or its department.
// Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
safeguard: last_day(day) unknown_role(role roles) gains(people) loses(people) nobody_may
safeguard: ask_change(change)
safeguard.new_to_people: says(station) safe do
safeguard.change_by_other: says(change) safe do
safeguard.change_not_meant: says(change) safe do
safeguard: waiting(count) waiting_person(person key count) waiting_unknown(person count)
safeguard: nothing_waits none_read_waits
safeguard: each_confirms(logbook) unknown_names
safeguard: unknown_group(group groups)
safeguard: strike_fault strike_hold
safeguard.who_confirms: says safe do
safeguard.letters: says(word) safe do(word)
safeguard.answer_lost: says safe do
safeguard.option_lacking: says(kind options) safe do(options)
safeguard.no_manager: says safe do(roles)
safeguard.nobody_known: says safe do
safeguard.edition_without_manager: says(roles) safe do(roles)
)";

std::string_view safeguardKeys() {
    return table;
}

}  // namespace words
