// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records for readers outside the department: without the names of staff, or with coarse places.
// Either leaves out free texts and unknown fields, since they may name a person or a place.
// What comes out is no record file, and none can be made from it. Knows no file and no logbook.
#pragma once

#include "logbook/record.h"

#include <span>
#include <string>

namespace exchange {

struct Redaction {
    bool withoutNames = false;  // persons as "person-1", "person-2" … in the order in which they
                                // first stand
    bool coarsePlaces = false;  // a place up to its first number: "ICU room 9" as "ICU room"
};

// One object a line, {"redacted": {…}}, in the order given, each line ended with LF.
[[nodiscard]] std::string writeRedacted(std::span<const logbook::Record> records,
                                        const Redaction& redaction);

}  // namespace exchange
