// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether a logbook can only be looked at here.
#pragma once

#include "station/open.h"

namespace station {

// The file, or the folder that it lies in, may not be written; false where there is no such file.
[[nodiscard]] bool isReadOnly(const LogbookFile& file);

}  // namespace station
