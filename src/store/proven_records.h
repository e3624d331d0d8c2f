// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The records of a logbook, each held against its seal as it is read: for whoever hands them on.
// Looks at nothing but records and notes of heads; verify looks at everything.
#pragma once

#include "store/logbook.h"

#include <tl/expected.hpp>
#include <vector>

namespace store {

struct ProvenRecords {
    std::vector<logbook::Record> records;  // in reading order
    // Of each station the first record that does not fit, by its hash, by the noted heads, or as
    // the last verify noted it; that and what the station wrote after it is left out. What was
    // noted of no station leaves nothing out.
    std::vector<Break> breaks;
};

[[nodiscard]] tl::expected<ProvenRecords, Trouble> provenRecords(const Logbook& logbook);

}  // namespace store
