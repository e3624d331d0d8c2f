// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences of traces, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
trace_title: lot(key) serial(key) load(key) notice(notice title)
trace: notice(action time record person) stop_use inspect information cancelled
trace: counts(fits units now) counts_units(units now) counts_open(count)
trace: alike(keys)
trace: in_units taken_out units_now units_past loose_heading reprocessed
trace: in_load since before later earlier other_loads
trace: stay(device what) model(model) serial(serial) lot(lot)
trace: fitted(time person record) concerned(time line record) ended(time line person record)
trace: stated_elsewhere done(time person record) done_text(time person record text) not_done
trace: now no_place on_patient(place) paused(place)
trace: when part unit load_title entry no_effect(record)
trace: loose(part device time) loose_used(part device time) never_fitted(part)
trace_nothing.lot: says do
trace_nothing.serial: says do
trace_nothing.load: says do
trace_nothing.notice: says do
trouble.unknown_notice: says(notice) safe do(notices)
trouble.no_notice: says safe do
call.trace_empty: says(option) safe do
call.trace_what: says safe do
call.trace_twice: says safe do
)";

std::string_view traceKeys() {
    return table;
}

}  // namespace words
