// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences about units, entries and what is asked of people, with their gaps. Knows no
// language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
language: code name small_labels decimal_mark
caution: full short
verdict: ready not_ready in_use withdrawn retired not_known
check_status: current due failed lapsed exempt
plain: paused used needs_reprocessing struck_through unknown nothing never
plain: whole_record whole_file advisory at_start permitted no_reason
level: low high sterile
month_name: 1 2 3 4 5 6 7 8 9 10 11 12
time: month_year(month year)
time: first(clock zone) second(clock zone) other_day(day clock) in_table(day clock)
time: yesterday(clock) at_clock(clock)
time: on_day_at_clock(day clock) day(day month) day_year(day month year)
time: full(day clock zone offset utc)
duration: seconds(count) minutes(count) hours(count) hours_minutes(hours minutes) days(count)
duration: days_hours(days hours) span_hours(hours minutes) span_days(days hours minutes)
duration: under_minute
number: quantity(value unit) percent(value) percent_under(value)
list: comma(before next) and(before last) or(before last) more(before count)
list: and_softened(before last) or_softened(before last) and_softened_before or_softened_before
event: fit(position when) remove(position when) reprocess(position when) group(when)
event: power_on(when) power_off(when) use_start(when) use_pause(when) use_resume(when)
event: use_end(when) soil(when) alarm(alarm when) fault(fault when) clear(fault when)
event: service(service when) release(hold when) move(when) software(when) other(when)
finding.withdrawn: says(time hold) do
finding.withdrawn_reason: says(time hold reason)
finding.withdrawn_roles: do(roles)
finding.withdrawn_sheet: says(time hold)
finding.fault: says(time fault) do
finding.fault_text: says(time fault text)
finding.fault_roles: do(roles)
finding.fault_usable: do
finding.notice_stop: says(notice title) do
finding.notice_stop_lot: says(position lot notice title) do
finding.notice_stop_part: says(position part notice title) do
finding.notice_inspect: says(notice title) do
finding.notice_information: says(notice title) do
finding.group_unset: says do
finding.group_unsupported: says(group) do
finding.group_differs: says(selected group) do(group)
finding.group_differs_unset: says(group)
finding.service_failed: says(service when) do
finding.service_failed_roles: do(roles)
finding.service_outstanding_new: says(service)
finding.service_outstanding: says(service) do
finding.service_outstanding_event: says(service event)
finding.service_outstanding_roles: do(roles)
finding.service_due: says(service day) do(last_day)
finding.service_due_plain: says(service) do
finding.service_overdue: says(service day) do
finding.service_overdue_plain: says(service)
finding.service_overdue_roles: do(roles)
finding.missing: says(position) do
finding.missing_choice: says(choice) do(positions)
finding.conflict: says(conflict) do
finding.conflict_choice: says(positions) do
finding.mismatch: says(position groups group) do(group)
finding.mismatch_unstated: says(position) do(group)
finding.expired: says(position day) do
finding.expired_plain: says(position)
finding.change_due: says(position time) do
finding.worn_out: says(position count limit) do
finding.worn_out_plain: says(position)
finding.spent: says(position) do
finding.spent_soiled: says(position)
finding.unprocessed: says(position) do(level)
finding.unprocessed_soiled: says(position)
finding.due_never: says(check) do(check)
finding.due_voided: says(event check) do(check)
finding.due_voided_never: says(event check)
finding.due_uncertain: says(tolerance) do(check)
finding.due_start: do(check)
finding.failed: says(check when) do(check)
finding.failed_max: says(check when measure value limit)
finding.failed_max_group: says(check when measure value limit group)
finding.failed_min: says(check when measure value limit)
finding.failed_min_group: says(check when measure value limit group)
finding.lapsed: says(check when duration) do(check)
finding.lapsed_plain: says(check)
finding.not_before: do(check time wait)
finding.discounted: says(time check reasons)
finding.discounted_all: do(check)
finding.on_hold: do
finding.unseen: says(duration) do
finding.unseen_plain: says
finding.unenrolled: says do
finding.waived: do(time person reason)
finding.waived_plain: do(time)
brief: notice_stop(notice) notice_stop_part(position notice)
brief: withdrawn(hold) fault(fault) notice(notice) group_unset group_unsupported(group)
brief: group_differs(group) service_failed(service) service_outstanding(service)
brief: service_due(service) service_overdue(service) missing(position) conflict(conflict)
brief: conflict_choice(conflict)
brief: mismatch(position group) expired(position) change_due(position) worn_out(position)
brief: spent(position) unprocessed(position) due(check) failed(check) lapsed(check) unseen
brief: unenrolled permitted(finding time) wait(finding time)
discount.incomplete: says do(check)
discount.too_early: says do(check)
discount.too_early_over: do(check)
discount.power_unknown: says do(check)
discount.condition: says(condition) do(condition check)
discount.measure_missing: says(measure) do(check measure)
discount.measure: says(measure) do(check)
discount.measure_max: says(measure value limit) do(measure check)
discount.measure_min: says(measure value limit) do(measure check)
discount.mismatch: says(position) do(check)
discount.in_line: says(position) do(check)
discount.order: says(other) do(other check)
discount.in_use: says do(check)
discount.unverified: says do(check)
discount.other: says do(check)
task: group(group) remove(position) reprocess(position level) fit(position) check(check)
task: put_back(position) unattended(duration) ready_at(time wait) ready_now
lifters: roles(roles) anyone permit(roles)
blocker.in_use: says do
blocker.in_doubt: says do
blocker.later_entries: says do
blocker.retired: says do
blocker.closing_fit: says(position) do
blocker.order: says do
class: compliant compliant_late compliant_waived emergency noncompliant
class_means: compliant compliant_late compliant_waived emergency noncompliant
flag: used_on_hold late(duration)
anomaly.clock_back: says(when) do(station)
anomaly.part_moved: says(position serial) do
anomaly.resumed_unready: says do
anomaly.unauthorised: says(person act) do(roles)
anomaly.unauthorised_plain: do
anomaly.unenrolled: says do
anomaly.unknown_key: says(key) do
anomaly.use_end_missing: says(when) do
anomaly.waiver_refused: says do
act: adopt person notice enrol retire group power move sighted software fit remove reprocess soil
act: check alarm fault clear withdraw release waive notice_done service use_start use_pause
act: use_resume use_end note review sign strike
record: match_unknown(fields)
record: adopt(edition) person(person) notice(notice title) notice_cancelled(notice) enrol(model)
record: notice_named(notice title)
record: retire group(group) power_on power_off move(place) sighted(place) software(version)
record: fit(position) fit_part(position part) remove(position) reprocess(level positions)
record: transcribed(form) moved_from(target) not_signed not_by(person) confirmed_by(person time)
record: written_by(person) verified_by(person) no_reason
record: soil(reason) check_pass(check) check_fail(check) check_incomplete(check)
record: check_measures(result measures) alarm(alarm) fault(fault) clear(fault)
record: withdraw(hold reason) release(hold) waive(time finding reason) notice_done(notice)
record: service_pass(service) service_fail(service) service_in_use(service)
record: service_not_located(service) service_deferred(service) use_start use_start_place(place)
record: use_pause(reason) use_resume use_end note(text) review(target disposition)
record: review_confirmed(target) review_not_mine(target) sign(scope)
record: strike(target reason) entry(record line time) entry_on(record device)
record: waive_mismatch(position)
record: check_conditions(result conditions) expires(day) emergency for_group(group) same_patient
refusal.roles: says(person act) safe do(roles)
refusal.nobody: says(act) safe do
)";

std::string_view toldKeys() {
    return table;
}

}  // namespace words
