// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The chain heads that stand in a text: on a month's report, or in what verify and backup printed.
// Knows no file.
#pragma once

#include "store/heads.h"

#include <cstddef>
#include <string_view>
#include <vector>

namespace station {

struct HeadsInText {
    // Where other heads of a station stand there as well, the second is in the second of these, and
    // so on; none is left out.
    std::vector<store::Heads> heads;
    std::vector<std::size_t> places;  // where in the text the hash of a head begins, in order
};

// Of "icu-1":[412,"hex"] as in JSON, blanks between or not, and of the line of a report,
// icu-1: up to entry 412, hex
// with up to 60 bytes of any language before the number; the figures of a hash in capitals too, and
// broken over lines, as a mail does. Takes time in proportion to the text, whatever it is.
[[nodiscard]] HeadsInText headsInText(std::string_view text);

}  // namespace station
