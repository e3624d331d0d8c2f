// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences of the Bedside desk's model, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
bedside: now starts_at(time wait)
bedside: passed passed_so(conditions) failed
bedside: blocked order_unknown taken_out_for(checks)
bedside: in_use in_use_lacking in_use_withdrawn ready_now ready_but_start(checks)
bedside: order(steps) order_pause order_change(position) order_fit(position) order_resume
bedside: order_take_out(position) order_put_back(position) take_out_why(checks) resume_last
bedside: resume
bedside: no_group switch_on_why in_use_no_check repeated
bedside: at_most(limit) at_least(limit) between(least most) limits_for(limits group)
bedside: no_limit_for(group) no_limit_unset outside_fails outside_discounts
bedside: over_fails(value limit) under_fails(value limit)
bedside: over_discounts(value limit) under_discounts(value limit)
bedside: impossibly_low(measure value bound) impossibly_high(measure value bound)
bedside: not_a_number(measure) other_dimension(measure unit wanted)
bedside: used_since(when) cycles(life count) part_for(part groups) for_groups(groups)
bedside: fitted_before(when device) put_back(when) known_part known_lot
bedside: other_groups(position before now) elsewhere(device)
bedside: other_position(code positions position) notice_stops(notice title)
bedside: notice_inspects(notice title) notice_informs(notice title)
bedside: found_unit(device) found_retired(device) found_units(count text)
bedside: found_part(serial positions) found_model(model positions)
bedside: found_lot(lot positions) found_lot_alone(lot)
bedside: found_nothing(text) found_nothing_read(text) found_may_be_more found_no_text
)";

std::string_view bedsideKeys() {
    return table;
}

}  // namespace words
