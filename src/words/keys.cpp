// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The keys of all sentences, with their gaps: "finding.lapsed: says(check when duration) do(check)".
// Knows no language.
#include "words/keys.h"

#include <algorithm>
#include <string_view>

namespace words {

namespace {

constexpr std::string_view told = R"(
language: code name small_labels
caution: full short
verdict: ready not_ready in_use withdrawn retired not_known
check_status: current due failed lapsed exempt
plain: paused used needs_reprocessing struck_through policy_edition unknown nothing never
plain: whole_record whole_file advisory at_start permitted yes no
reuse: single_use single_patient reusable permanent
level: low high sterile
month_name: 1 2 3 4 5 6 7 8 9 10 11 12
time: first(clock zone) second(clock zone) other_day(day clock) yesterday(clock) at_clock(clock)
time: on_day_at_clock(day clock) day(day month) day_year(day month year) full(day clock zone utc)
duration: seconds(count) minutes(count) hours(count) hours_minutes(hours minutes) days(count)
duration: days_hours(days hours)
number: quantity(value unit) percent(value) percent_under(value)
list: comma(before next) and(before last) or(before last) more(before count)
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
finding.unseen: says(duration) do
finding.unseen_plain: says
finding.unenrolled: says do
finding.waived: do(time person reason)
finding.waived_plain: do(time)
brief: withdrawn(hold) fault(fault) notice(notice) group_unset group_unsupported(group)
brief: group_differs(group) service_failed(service) service_outstanding(service)
brief: service_due(service) service_overdue(service) missing(position) conflict(conflict)
brief: conflict_choice(conflict)
brief: mismatch(position group) expired(position) change_due(position) worn_out(position)
brief: spent(position) unprocessed(position) due(check) failed(check) lapsed(check) unseen
brief: unenrolled permitted(finding time) wait(finding time)
discount.incomplete: says do(check)
discount.too_early: says do(check)
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
blocker.in_use: says do
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
record: adopt(edition) person(person) notice(notice title) notice_cancelled(notice) enrol(model)
record: retire group(group) power_on power_off move(place) sighted(place) software(version)
record: fit(position) fit_part(position part) remove(position) reprocess(level positions)
record: soil(reason) check_pass(check) check_fail(check) check_incomplete(check)
record: check_measures(result measures) alarm(alarm) fault(fault) clear(fault)
record: withdraw(hold reason) release(hold) waive(time finding reason) notice_done(notice)
record: service_pass(service) service_fail(service) service_in_use(service)
record: service_not_located(service) service_deferred(service) use_start use_start_place(place)
record: use_pause(reason) use_resume use_end note(text) review(target disposition) sign(scope)
record: strike(target reason)
refusal.roles: says(person act) safe do(roles)
refusal.nobody: says(act) safe do
)";

constexpr std::string_view faults = R"(
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
rulebook.place: known(line column path) unknown(path)
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
rulebook.not_voided_by_use_end: says do
rulebook.not_voided_by_repair: says do
rulebook.long_validity: says do
rulebook.match_without_reuse: says do
rulebook.leak_during_use: says do
rulebook.group_without_check: says(detail) do
rulebook.no_acceptance: says do
rulebook.no_authority: says(act) do
rulebook.limit_leaves_out_group: says(detail) do
trouble.not_found: says(path) safe do
trouble.exists: says(path) safe do
trouble.not_a_logbook: says(path) safe do
trouble.newer_schema: says(path) safe do
trouble.older_schema: says(path) safe do
trouble.read_only: says(path) safe do
trouble.not_permitted: says(path) safe do
trouble.needs_recovery: says(path) safe do
trouble.not_own: says(record) safe do
trouble.busy: says(person computer time) safe do
trouble.busy_unknown: says safe do
trouble.disk_full: says safe do(path)
trouble.damaged: says(path detail) safe do
trouble.network_file_system: says(path type) safe do
trouble.no_station: says safe do
trouble.station_set: says(station) safe do
trouble.bad_station: says(station) safe do
trouble.station_taken: says(station) safe do
trouble.fork: says(record) safe do(station)
trouble.gap: says(station detail) safe do
trouble.chain_broken: says(record) safe do
trouble.io: says(detail) safe do(path)
trouble.first_changed: says safe do
trouble.bad_records: says(count path) safe do
trouble.no_edition: says safe do
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
break.hole: says do
break.other: says(record detail) do
)";

constexpr std::string_view reports = R"(
board: title department(department facility) edition(edition title) asked(time) asked_group(group)
board: known_all known_at(time) heard(station time) heard_never(station) stale(station time)
board: verified(time heads) verified_never problem(problem) par_heading par(ready par)
board: par_short(ready par short) par_none(ready) no_units count(verdict count) doubt
board: doubt_sentence unit name model place group until missing remarks no_end
explain: title(device) asset(asset) model(model) place(place) no_place group(group) no_group
explain: verdict(verdict) verdict_for(verdict group) ready_until(time) ready_no_end findings
explain: no_findings rests_on(record by time) checks check status when who setup position part
explain: fitted expires life cycles(count) not_used empty services service last_pass due_by
explain: on_demand holds waivers waiver(finding time person reason) records record what
explain: last(record time)
month: title(month) period(from to) known(time) edition(edition) fleet(count) starts all_starts
month: compliance(part all percent low high) no_starts exceptions no_exceptions
month: exception(record time device class) by(person time) flags(flags) anomalies no_anomalies
month: anomaly(record time device person) anomaly_department(record time person) stations heads
month: head(station seq hash) no_heads repeat
)";

constexpr std::string_view uses = R"(
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
call.unknown_kind: says(kind) safe do(kinds)
call.bad_body: says safe do
call.other: says(detail) safe do(command)
call.output: says safe do
file.not_found: says(path) safe do
file.not_permitted: says(path) safe do
file.not_a_file: says(path) safe do
file.too_long: says(path) safe do
file.disk_full: says(path) safe do
file.io: says(path) safe do
file.no_folder: says(path) safe do
file.byte_order_mark: says(path) safe do
file: line(line sentence) more_lines(count)
import.bad_rulebook: says(record) safe do
import.wrong_edition: says(record edition found) safe do
import.own_name: says(record station) safe do(station)
export.unknown_station: says(station) safe do
adopt.bad_rulebook: says(path) safe do
entry.bad_record: says safe do
entry.unknown_position: says(key) safe do(keys)
entry.unknown_check: says(key) safe do(keys)
entry.unknown_service: says(key) safe do(keys)
entry.unknown_device: says(device) safe do
entry.retired_device: says(device) safe do
entry.no_edition: says safe do
entry.other_dimension: says(measure unit) safe do(wanted)
entry.waiver_refused: says safe do
entry.no_target: says(record) safe do
entry.not_strikable: says(record) safe do
entry.struck_already: says(record) safe do
entry: clock_back(time last)
verify: schema_changed(name) integrity(detail)
done: founded(station) recorded(record) imported(added skipped) backed_up(path bytes)
done: exported(count path) verified(count) not_verified(count) rulebook_sound(edition title)
done: rulebook_faulty(count) adopted(edition record) example demo(path) later(count time)
done: later_record(record time) warnings(count) not_noted
)";

void addEntry(SentenceKeys& keys, const std::string& prefix, std::string_view entry) {
    const auto open = entry.find('(');
    std::vector<std::string> gaps;
    if (open != std::string_view::npos) {
        auto rest = entry.substr(open + 1, entry.size() - open - 2);
        while (!rest.empty()) {
            const auto end = std::min(rest.find(' '), rest.size());
            gaps.emplace_back(rest.substr(0, end));
            rest.remove_prefix(std::min(end + 1, rest.size()));
        }
    }
    keys.emplace(prefix + "." + std::string(entry.substr(0, open)), std::move(gaps));
}

// Entries are parted by blanks, but for those in brackets.
void addLine(SentenceKeys& keys, std::string_view line) {
    const auto colon = line.find(':');
    const std::string prefix(line.substr(0, colon));
    std::size_t begin = colon + 2;
    bool inside = false;
    for (std::size_t at = begin; at <= line.size(); ++at) {
        if (at < line.size() && line[at] == '(') inside = true;
        if (at < line.size() && line[at] == ')') inside = false;
        if (at < line.size() && (line[at] != ' ' || inside)) continue;
        addEntry(keys, prefix, line.substr(begin, at - begin));
        begin = at + 1;
    }
}

void addTable(SentenceKeys& keys, std::string_view table) {
    while (!table.empty()) {
        const auto end = std::min(table.find('\n'), table.size());
        if (end > 0) addLine(keys, table.substr(0, end));
        table.remove_prefix(std::min(end + 1, table.size()));
    }
}

}  // namespace

const SentenceKeys& sentenceKeys() {
    static const SentenceKeys all = [] {
        SentenceKeys keys;
        addTable(keys, told);
        addTable(keys, faults);
        addTable(keys, reports);
        addTable(keys, uses);
        return keys;
    }();
    return all;
}

}  // namespace words
