// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The headings and lines of reports, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
board: title department(department facility) edition(edition title) asked(time) asked_group(group)
board: known_all known_at(time) heard(station time) heard_never(station) stale(station time)
board: verified_not_known verified_how_far(time)
board: verified(time heads) verified_never problem(problem) par_heading par(ready par)
board: par_short(ready par short) par_none(ready) no_units count(verdict count) doubt
board: at_start(checks) at_each_start(checks)
board: doubt_sentence later_entries later_sentence
board: unit name model place group until since missing remarks no_end
board: verdict until_or_since in_utc minutes_left missing_or_remarks so_at caution
board: place_unsaid place_unsaid_last(place)
explain: struck(line word) on_hold
explain: title(device) asset(asset) model(model) place(place) no_place group(group) no_group
explain: place_unsaid(time place)
explain: verdict(verdict) verdict_of(verdict group) ready_until(time) findings no_findings
explain: rests_on(record line person time) earlier_ground(sentence) checks check status when who
explain: setup position part part_lot(lot) fitted expires life cycles(count) not_used empty
explain: services service last_pass due_by on_demand holds standing(line person time) waivers
explain: records record at what
look_back: title(device time) beside(time) compared verdict ready_until place edition against
look_back: nothing_else column_known(time) column_actual not_known(time) not_so(time)
look_back: verdict_both(verdict) same(time) findings_known(time) findings_actual findings_both
look_back: since(time) nothing_since entered(time later) entered_then(time)
look_back: struck(person time reason) tables_known(time)
plan: done_not_ready(time)
plan: title(device time) title_for(device group time) time step remarks steps blockers
plan: not_before(time) not_before_cause(time cause) goes_in(position when) went_in(position when)
plan: goes_on(when) was_on(when) switch_on wait(duration) wait_for(what) until_finished(what)
plan: none_before(time gain) until_reprocessed(what) runs_out not_proved(count most)
horizon: title(from to duration) stays(ready par) falls(ready par time least)
horizon: short(ready par short least) lapses no_lapses(time) at unit place group why
horizon: work no_work group_work(group count duration) group_none(group) held_all
horizon: held_from(time) lacking(time count) beyond(units) doubt later_entries
horizon: begin done step busy now no_place
forms: title(number edition) no_patient unit place date done_by events use_start use_end pause
forms: resume group trouble parts checks outcome(time) conditions(conditions) second
forms: at_least(value) at_most(value) for_group(group value) enter(number)
muster: title(units people group time) units_one units_many(count) people_one people_many(count)
muster: enough(units people group time wait) enough_now(units group) none(units group)
muster: too_few(ready units people group time wait) too_few_now(ready units group)
muster: one_more(time gain) one_more_nothing not_proved(time) in_order ready now
muster: by_one(numbers) by_several(numbers) ready_for(other group) runs_out(findings time)
muster: person(number time) idle(idle) rest in_the_way rest_in_use(devices)
muster: rest_later(devices)
muster: rest_in_doubt(devices) rest_unsupported(devices group) count(most) switch_on(devices)
month: availability no_availability unit below_par group below turnaround use_ended took
month: censored(duration)
month: no_uses
month: title(month) period(from to) known(time) edition(edition) starts all_starts class count
month: meaning compliance(part all percent low high) no_starts exceptions no_exceptions
month: exception(record time device class) by(person time) flags(flags) anomalies no_anomalies
month: anomaly(record time device person) anomaly_department(record time person) stations heads
month: head(station seq hash) repeat
month: left_out(count) came_later(station count) signed(time person record known count)
draft: title(edition title) nothing_written flips no_flips units(count units) flip(now then)
draft: named_anew(names) no_more named_no_more(names) units_no_more(units)
draft: blocks_then(sentence) blocks_now(sentence) months replayed month all
draft: compliant_now compliant_then checks_now checks_then rate(part all percent) no_starts
draft: below below_now below_then no_par months_before(count)
)";

std::string_view reportKeys() {
    return table;
}

}  // namespace words
