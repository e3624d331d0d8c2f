// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries that must not wait, put into the form that a record wants: nobody is sent back to type a
// start of use once more for a blank too many. Changes nothing that would be a guess.
#pragma once

#include "station/entry.h"

#include <string>
#include <vector>

namespace station {

// What goes on at a patient, or warns of a unit: it has happened, whether it can be kept or not.
[[nodiscard]] bool hasHappened(logbook::Kind kind);

struct Tidied {
    std::vector<Entry> entries;
    std::vector<std::string> remarks;  // what was left out, since it is none even so
};

// Names and keys without what is too many in them. Of what has happened, a text that need not be
// there and cannot be kept is left out. Of any other kind that is not held up on a unit in use, a
// part or a place is only freed of what is too many.
[[nodiscard]] Tidied tidied(const words::Words& words, const std::vector<Entry>& entries);

}  // namespace station
