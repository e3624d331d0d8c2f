// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a field notice concerns now, so that a slip in it is seen: it is taken all the same, for a
// recall may come before the part. Judges nothing.
#pragma once

#include "rules/state.h"
#include "station/entry.h"

#include <optional>
#include <string>
#include <vector>

namespace station {

struct NoticeReach {
    std::vector<std::string> told;      // how much it concerns, a sentence
    std::vector<std::string> warnings;  // that it concerns nothing; names that nothing here has
};

// Nothing of one that is cancelled.
[[nodiscard]] NoticeReach reachOf(const words::Words& words, const rules::State& state,
                                  const logbook::body::Notice& notice);

// A field that means nothing, or lists nothing, would leave it about others than was meant.
[[nodiscard]] std::optional<Problem> refuseMatch(const words::Words& words,
                                                 const logbook::Record& record);

// The same of an entry before it is recorded, with what of the log cannot be read or relied on
// among the warnings. Refused: an entry that is no notice, or would be refused for its form.
[[nodiscard]] Result<NoticeReach> noticeOutlook(const Surroundings& surroundings,
                                                const LogbookFile& file, const Entry& entry);

}  // namespace station
