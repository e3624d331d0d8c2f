// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The chain heads that stand in a text: on a month's report, or in what verify and backup printed.
// Knows no file.
#pragma once

#include "store/heads.h"

#include <string_view>
#include <vector>

namespace station {

// Of "icu-1":[412,"hex"] as in JSON, blanks between or not, and of the line of a report,
// icu-1: up to entry 412, hex
// with up to 60 bytes of any language before the number; the figures of a hash in capitals too, and
// broken over lines, as a mail does. Where other heads of a station stand there as well, the second
// is in the second of those returned, and so on; none is left out. Takes time in proportion to the
// text, whatever it is.
[[nodiscard]] std::vector<store::Heads> headsInText(std::string_view text);

}  // namespace station
