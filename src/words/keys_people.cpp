// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences about people: signing in, PINs, and entries that stand under a name. Knows no
// language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
list: role(role people) role_of_nobody(role)
sign_in: taken_unknown(person) taken_unread(person)
sign_in.nobody: says safe do(logbook)
sign_in.unknown: says(person) safe do(person)
sign_in.unknown_unread: says(person) safe do
sign_in.not_begun: says safe do(logbook)
sign_in.no_pin_here: says(person) safe do(key logbook)
sign_in.no_pin_given: says(person) safe do
sign_in.wrong: says(person left) safe do(wait)
sign_in.waiting: says(person) safe do(wait)
sign_in.locked: says(person) safe do(key logbook)
pin.not_given: says(person) safe do
pin.not_digits: says safe do
pin.too_short: says safe do
pin.all_equal: says safe do
pin.sequence: says safe do
people.begun: says safe do
people.no_edition: says safe do
people.edition_is_there: says safe do
people.no_name: says(person) safe do
people.unknown: says(person) safe do(person)
people.not_manager: says(person) safe do(roles)
people.bad_badge: says safe do
people.key_is_badge: says(person) safe do
people.badge_taken: says safe do
people.no_code: says safe do
people.wrong_code: says safe do(wait)
people.code_waiting: says safe do(wait)
confirm: line(record time device entry) line_department(record time entry)
sample: welcome(key pin) people
confirm: disowned(line person) unsigned(records)
confirm.not_told: says safe do
confirm.not_yours: says(record person) safe do
import.nobody: says safe do
question: pin(person) new_pin(person) again not_same code rulebook manager name(person)
done: begun(person) next_person(logbook) code(code) pin_set(person) badge_set(person)
done: badge_taken_away(person) recovered(person) code_renewed first_steps(logbook station)
done: recorded_unconfirmed(record person) to_confirm(logbook record key) confirmed(count)
done: disowned(count)
done: unconfirmed(person count)
done: unconfirmed_department how_to_confirm(logbook key) nothing_unconfirmed(person)
)";

std::string_view peopleKeys() {
    return table;
}

}  // namespace words
