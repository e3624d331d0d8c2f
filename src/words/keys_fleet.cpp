// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences about fleet lists and the enrolling of units, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
fleet: title(path logbook) ignored(columns) good(count) none_good refused(count) line unit model
fleet: groups features commissioned name asset place remarks refused_line(line)
fleet: refused_unit(line unit) in_column(column sentence) nothing_saved
fleet: how_to_take(logbook path) taken(first last) taken_one(first) not_ready
fleet: enrolled(count) anew may_be_enrolled of_unit(unit sentence)
fleet.bad_list: says(path) safe do
fleet.bad_unit: says(unit) safe do
fleet.changed: says safe do
fleet.nothing: says safe do
fleet_fault.too_long: says do
fleet_fault.not_utf8: says(detail) do
fleet_fault.no_header: says do
fleet_fault.semicolons: says do
fleet_fault.tabs: says do
fleet_fault.column_missing: says(column) do
fleet_fault.column_twice: says(column) do
fleet_fault.too_many_rows: says(detail) do
fleet_fault.stray_quote: says do
fleet_fault.open_quote: says do
fleet_fault.cell_count: says(detail) do
fleet_fault.missing: says do
fleet_fault.bad_name: says(detail) do
fleet_fault.bad_key: says(detail) do
fleet_fault.bad_day: says(detail) do
fleet_fault.control_character: says do
fleet_fault.too_long_text: says(most) do
fleet_fault.number_twice: says(detail) do
fleet_fault.enrolled_already: says(unit) do
fleet_fault.serial_taken: says(number unit) do
fleet_fault.asset_taken: says(number unit) do
fleet_fault.unknown_group: says(group) do(groups)
fleet_fault.unknown_feature: says(feature) do(features)
fleet_fault.no_features: says(feature) do
fleet_fault.not_yet: says(day) do
fleet_fault.patient_text: says(text) do
)";

std::string_view fleetKeys() {
    return table;
}

}  // namespace words
