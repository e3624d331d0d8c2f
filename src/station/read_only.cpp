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
    // The journal is made beside what a link leads to.
    std::error_code error;
    const auto place = std::filesystem::canonical(file.path, error);
    const auto folder = (error ? file.path : place).parent_path();
    return !store::system::mayWrite(file.path) ||
           !store::system::mayWrite(folder.empty() ? "." : folder);
}

}  // namespace station
