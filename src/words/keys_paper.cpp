// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences on paper, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
paper: caution edition(edition) times(known printed) page_of(page pages)
paper: hold_title(device hold) hold_since(when who) hold_reason(reason)
paper: hold_lines custody custody_line
)";

std::string_view paperKeys() {
    return table;
}

}  // namespace words
