// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What in a text is meant as a chain head and is none that can be read: typed from paper, cut short
// or broken by a mail. Knows no file and no language.
#pragma once

#include "station/heads_text.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace station {

struct DoubtfulHead {
    std::string record;  // as it stands there: "icu-1/412", "icu-1/4l2"
    std::string seen;    // where its hash should be; cut where it is long, perhaps empty
    bool operator==(const DoubtfulHead&) const = default;
};

struct DoubtfulHeads {
    std::vector<DoubtfulHead> first;  // 100 at most, in the order of the text
    std::size_t count = 0;
};

// Of that text, whose heads were `found` in it. Doubtful is whatever stands
// - as "icu-1":[412," in JSON, or as icu-1: and one of the phrases and a number, without a hash;
// - behind a station, a number and a comma in other words, if it has eight letters or figures or
//   more, most of which a hash could have, and both of these;
// - behind a name and a number, if it is as long as a hash could be, whatever is between.
// `phrases` are what reports say between station and number: "up to entry". Not a word, a date or a
// count in prose. Takes time in proportion to the text.
[[nodiscard]] DoubtfulHeads doubtfulHeads(std::string_view text, const HeadsInText& found,
                                          const std::vector<std::string>& phrases);

}  // namespace station
