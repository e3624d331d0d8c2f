// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads records that stand in canonical form, as a logbook keeps them, several times quicker than
// readRecord. What it takes it reads as readRecord does; what is not of the form that it knows, and
// whatever readRecord refuses, it does not take.
#pragma once

#include "logbook/record.h"

#include <string_view>

namespace logbook {

// Whether a record that is read holds its `content`, or an empty text. Whoever only folds records
// does without, and each brings 300 bytes less to memory.
enum class WithContent { Yes, No };

// Whether `content` was read into `record`, whose memory is used again; if not, `record` holds
// nothing of use, and readRecord is to be asked. `kind` is what the content is expected to say.
[[nodiscard]] bool readCanonical(std::string_view content, std::string_view kind, Record& record,
                                 WithContent withContent = WithContent::Yes);

// The same for a line that may be a record of any kind.
[[nodiscard]] bool readCanonical(std::string_view line, Record& record);

}  // namespace logbook
