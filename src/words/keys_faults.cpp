// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences for faults and trouble, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
record_fault.not_json: says(detail offset) do
record_fault.not_an_object: says do
record_fault.duplicate_name: says(field detail) do
record_fault.bad_text: says(field) do
record_fault.bad_number: says(field) do
record_fault.too_deep: says(field) do
record_fault.too_long: says do
record_fault.missing: says(field) do
record_fault.wrong_type: says(field) do(detail)
record_fault.bad_station: says(field detail) do
record_fault.bad_seq: says(field detail) do
record_fault.bad_instant: says(field detail) do
record_fault.bad_day: says(field detail) do
record_fault.bad_key: says(field detail) do
record_fault.bad_name: says(field detail) do
record_fault.bad_record_name: says(field detail) do
record_fault.bad_unit: says(field detail) do
record_fault.bad_word: says(field) do(detail)
record_fault.unknown_kind: says(detail) do
record_fault.entered_before_at: says do
record_fault.not_timely: says do
record_fault.device_wanted: says do
record_fault.device_unwanted: says do
record_fault.no_parts: says do
rulebook.place: known(line column path) unknown(path) after(remark line column)
rulebook.not_toml: says(detail) do
rulebook.not_utf8: says do
rulebook.too_long: says do
rulebook.missing: says do
rulebook.unknown_field: says do
rulebook.wrong_type: says do(detail)
rulebook.bad_key: says(detail) do
rulebook.bad_word: says do(detail)
rulebook.bad_format: says do
rulebook.bad_duration: says(detail) do
rulebook.bad_interval: says(detail) do
rulebook.bad_grace: says(detail) do
rulebook.bad_number: says(detail) do
rulebook.bad_unit: says(detail) do
rulebook.bad_zone: says(detail) do
rulebook.bad_event: says(detail) do
rulebook.bad_path: says(detail) do
rulebook.bad_only: says(detail) do
rulebook.unknown_position: says(detail) do
rulebook.unknown_check: says(detail) do
rulebook.unknown_group: says(detail) do
rulebook.unknown_service: says(detail) do
rulebook.unknown_measure: says(detail) do
rulebook.no_group: says do
rulebook.cycle: says(detail) do
rulebook.attended_over_takes: says do
rulebook.key_taken: says do
rulebook.reserved_position: says(detail) do
rulebook.min_over_max: says do
rulebook.min_over_max_group: says(detail) do
rulebook.limit_lacks_group: says(detail) do
rulebook.only_without_fit: says do
rulebook.bad_authority: says(detail) do
rulebook.too_large: says(detail) do(detail)
rulebook.too_many: says(detail) do
rulebook.not_voided_by_use_end: says do
rulebook.not_voided_by_repair: says do
rulebook.long_validity: says do
rulebook.match_without_reuse: says do
rulebook.leak_during_use: says do
rulebook.group_without_check: says(detail) do
rulebook.no_acceptance: says do
rulebook.no_authority: says(act) do
rulebook.limit_leaves_out_group: says(detail) do
rulebook.no_limit: says do
rulebook.role_without_label: says(detail) do
rulebook.condition_without_label: says(detail) do
start.other_log: says(path) safe do
start.note_damaged: says safe(path) do
trouble.not_found: says(path) safe do
trouble.put_aside: says(path files) safe do(path)
trouble.not_finished: says(path files) safe do
trouble.exists: says(path) safe do
trouble.not_a_logbook: says(path) safe do
trouble.newer_schema: says(path) safe do
trouble.older_schema: says(path) safe do(argument)
trouble.read_only: says(path) safe do
trouble.journal_in_way: says(path) safe do(path)
trouble.wal_in_way: says(path) safe do(path)
trouble.journal_names_file: says(path) safe do(path)
trouble.no_memory: says safe do
trouble.journal_two_names: says(path) safe do(path)
trouble.two_names: says(path) safe do(path)
trouble.journal_is_none: says(path) safe do(path)
trouble.journal_of_other_time: says(path) safe do(path)
trouble.unknown_device_damaged: says(device) safe do
trouble.not_permitted: says(path) safe do
trouble.needs_recovery: says(path) safe do
trouble.not_own: says(record) safe do
trouble.log_moved: says safe do
trouble.moved: says(path) safe do(path)
trouble.not_verified: says safe do(argument)
trouble.pages_damaged: says(path) safe do
trouble.made_not_confirmed: says(path detail) safe do(path)
trouble.busy: says(person computer time) safe do
trouble.busy_unknown: says safe do
trouble.disk_full: says safe do(path)
trouble.damaged: says(path detail) safe do
trouble.damaged_throughout: says(path detail) safe do
trouble.unreadable: says(path detail) safe do
trouble.unreadable_throughout: says(path detail) safe do
trouble.not_given: says(path detail) safe do(path)
trouble.journal_unread: says(path detail) safe do(path)
trouble.network_file_system: says(path type) safe do
trouble.no_station: says safe do
trouble.station_set: says(station) safe do
trouble.bad_station: says(station) safe do
trouble.station_damaged: says(station) safe do
trouble.station_taken: says(station) safe do
trouble.fork: says(record) safe do(station)
trouble.gap: says(station detail) safe do
trouble.chain_broken: says(record) safe do
trouble.not_sound: says(path) safe do
trouble.left_aside: says(detail) safe(path aside) do(path aside)
trouble.not_confirmed: says(path detail) safe(aside) do(path)
trouble.not_confirmed_new: says(path detail) safe do(path)
trouble.write_not_confirmed: says(path detail) safe do
trouble.io: says(detail) safe do(path)
trouble.first_changed: says safe do
trouble.bad_records: says(count path) safe do
trouble.no_edition: says safe do
trouble.edition_gone: says safe do
trouble.before_first_edition: says(time edition) safe do
trouble.bad_rulebook: says(record) safe do
trouble.wrong_edition: says(record) safe do
trouble.unknown_group: says(group) safe do(groups)
trouble.unknown_device: says(device) safe do
trouble.no_record: says(record) safe do
trouble.cancelled: says safe do
trouble.bad_instant: says(text) safe do
trouble.bad_month: says(text) safe do
trouble.other: says(detail) safe do
break.hash: says(record) do
break.column: says(record detail) do
break.not_a_record: says(record) do
break.gap: says(record) do
break.tail_lost: says(record) do
break.not_noted: says(record) do
break.order: says(record) do
break.unreadable: says(record detail) do
break.unread: says(record) do
break.hole: says do
break.other: says(record detail) do
)";

std::string_view faultKeys() {
    return table;
}

}  // namespace words
