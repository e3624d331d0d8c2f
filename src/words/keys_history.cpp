// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences of the entries on one unit, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
history: struck(person time reason) later(duration)
window: state_stays(record)
attribute: layout technology groups udi
window.no_time: says(text) safe do
window.not_past: says(text) safe do
history: typed(line text) denied
history: at entered by done_by witness signed not_signed form batch moved_from record
history: moves(count) strikes(count) in_session(count)
history: uncounted(reasons) uncounted_label no_effect
detail: model groups features commissioned label asset maker udi place owner return_by
detail: group version position serial lot expires reuse level load check conditions alarm
detail: fault blocking blocks blocks_not text hold until notice service emergency precautions
detail: same_patient reason target yes no power on off finding outcome
outcome: pass fail incomplete in_use not_located deferred
reuse: single_use single_patient reusable permanent
)";

std::string_view historyKeys() {
    return table;
}

}  // namespace words
