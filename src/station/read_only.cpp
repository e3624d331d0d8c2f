// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By what the operating system allows; see read_only.h.
#include "station/read_only.h"

#include "station/system.h"
#include "store/operating_system.h"

namespace station {

bool isReadOnly(const LogbookFile& file) {
    if (!system::exists(file.path)) {
        return false;
    }
    const auto folder = file.path.parent_path();
    return !store::system::mayWrite(file.path) ||
           !store::system::mayWrite(folder.empty() ? "." : folder);
}

}  // namespace station
