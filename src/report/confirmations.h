// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who has put their name, later, to entries made while nobody had signed in; for whoever tells of
// entries.
#pragma once

#include "report/part_kinds.h"
#include "words/context.h"

namespace report {

// By the entry's name the review that confirms it, as far as it was made and known by then. It
// holds copies: the log need not outlive it.
[[nodiscard]] words::RecordLookup confirmationsIn(const rules::Log& log, const KnownBy& known);

}  // namespace report
