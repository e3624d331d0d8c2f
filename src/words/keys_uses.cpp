// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences of the use cases, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
call: say_so(option)
call.unknown_command: says(word) safe do
call.unknown_command_like: says(word) safe do(nearest)
call.no_command: says safe do
call.unknown_option: says(option command) safe do(command)
call.unknown_option_like: says(option command) safe do(nearest command)
call.value_missing: says(option value) safe do(command)
call.value_unwanted: says(option) safe do(command)
call.argument_missing: says(argument command) safe do(command)
call.argument_unwanted: says(argument command) safe do(command)
call.option_missing: says(option value command) safe do(command)
call.option_twice: says(option) safe do(command)
call.option_for_other: says(option kind) safe do(kind options)
call.bad_value: says(option text) safe do(wanted)
call.one_form: says safe do
call: whole_hours(most) whole_months(most)
call.unknown_kind: says(kind) safe do(kinds)
call.bad_body: says safe do
call.other: says(detail) safe do(command)
call.output: says safe do
file.not_found: says(path) safe do
file.not_permitted: says(path) safe do
file.not_a_file: says(path) safe do
file.no_plain_file: says(path) safe do
file.too_long: says(path) safe do
file.disk_full: says(path) safe do
file.io: says(path) safe do
file.no_folder: says(path) safe do
file.side_name: says(path) safe do
file.byte_order_mark: says(path) safe do
file: line(line sentence) more_lines(count) of(path sentence)
import: place(path line record) gap(path line record missing) more(count)
import.bad_rulebook: says(record) safe do
import.wrong_edition: says(record edition found) safe do
import.own_name: says(record station) safe do(station)
export: broken
export.unknown_station: says(station) safe do
adopt.bad_rulebook: says(path) safe do
try.bad_rulebook: says(path) safe do
demo.bad_end: says(time first last) safe do
demo.exists: says(path) safe do
demo.no_demo: says(path) safe do
demo.others: says(path stations) safe do
demo.no_zone: says safe do
entry.bad_record: says safe do
entry.unknown_position: says(key) safe do(keys)
entry.unknown_match: says(fields) safe do(known)
entry.empty_match: says(fields) safe do
entry.only_notice: says safe do
entry: form_left_out(text)
notice_reach: units(units) parts(units fits kept) nothing strange_position(position positions) dry
notice_reach: strange_unit_models(models) strange_part_models(models)
notice_reach: imported(key record told) more(count)
entry.unknown_check: says(key) safe do(keys)
entry.unknown_service: says(key) safe do(keys)
entry.unknown_device: says(device) safe do
entry.unread_device: says(device) safe do
entry.retired_device: says(device) safe do
entry.no_edition: says safe do
entry.other_dimension: says(measure unit) safe do(wanted)
entry.waiver_refused: says safe do
entry.no_target: says(record) safe do
entry.not_strikable: says(record) safe do
entry.struck_already: says(record) safe do
entry: clock_back(time last) clock_ahead(time last) text_withheld(texts)
entry.clock_not_right: says safe do
entry.clock_behind: says(time person last) safe do
entry.form_not_issued: says(form station) safe do
entry.form_entered: says(form record) safe do
entry.strike_without_reason: says safe do
entry.same_witness: says(person) safe do
entry.not_moved: says(record) safe do
entry: witness_left_out(person reason) names_withheld(texts) unknown_person(person)
entry.patient_text: says(texts) safe do
question: went_on(time) went_on_more(count) went_on_means(time)
question: yes clock(doubt) patient(texts) impossible(values) patient_hint(texts)
entry.impossible_value: says(values) safe do
correction.no_batch: says(record) safe do
correction.batch_unread: says safe do
correction.no_unit: says(record) safe do
correction.not_shown: says(count) safe do
correction.same_unit: says(record device) safe do
correction: of_entry(record) struck(records) reentered(device records)
entry: not_recorded on_paper not_recorded_now(safe) on_paper_then(do) on_paper_too(do)
entry: edition_unread edition_unread_do person_unread(person)
entry: unready_start(device findings) unfinished_start(device findings) backdated(time)
entry: no_longer_ready(device findings) worse_in_use(device findings)
standing: ready(device group) ready_until(device group time) not_ready(device group findings)
standing: not_ready_yet(device findings) in_use(device) in_use_lacking(device findings)
standing: withdrawn(device findings) retired(device) by_permission permitted(time findings)
standing: in_doubt(device) later(device) later_besides(device)
no_effect: check(device check) clear(device fault) release(device hold) remove(device position)
no_effect: not_in_use(device) paused_already(device) not_paused(device) goes_on(device)
no_effect: so_already(device) reprocess(device) unready_with(device findings)
time_given: first second
time_given.bad: says(text) safe do
time_given.twice: says(time day first second) safe do(time)
time_given.never: says(time day) safe do
time_given.skipped: says(time day from to) safe do(time later)
time_given.no_second: says(time day) safe do(time)
time_given.no_zone: says safe do
privacy: beds places
privacy: markers titles persons ages numbered number_words seen(text) left_out place
verify: schema_changed(name) integrity(detail) file_damaged unread(count record) read_round
verify: read_round_disk disk_failed not_given(detail)
done: founded(station) recorded(record) imported(added skipped) backed_up(path bytes)
done: exported(count path) verified(count) not_verified(count) rulebook_sound(edition title)
done: rulebook_faulty(count) adopted(edition record) example demo(path count time) later(count time)
done: match_unknown(count record fields) match_empty(count record fields)
done: forms(path first last) later_record(record time) warnings(count) not_noted
done: not_noted_busy not_noted_full boards_unaware
done: not_noted_damaged not_noted_disk imported_nothing up_to(records) month_ahead(to count time)
verify: may_be_unread
done: verified_file_not(count) verified_in_part(count) not_noted_names
)";

std::string_view useKeys() {
    return table;
}

}  // namespace words
