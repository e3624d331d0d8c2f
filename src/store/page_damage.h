// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is still written into a file of which verify has found that its pages are not whole: a page
// that is thought to be free may be one on which records stand, and whatever is put there is put
// over them.
#pragma once

#include "store/verify_report.h"

namespace store {

// Instead of how many records were read, in a note that had to be short.
inline constexpr std::int64_t pagesDamaged = -1;

[[nodiscard]] inline bool arePagesDamaged(const Verification& verification) {
    return !verification.ok && verification.checked == pagesDamaged;
}

}  // namespace store
