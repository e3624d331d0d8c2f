// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bodies of the kinds of record; for the record reader only.
#pragma once

#include "logbook/fields.h"

namespace logbook {

// Which of the two forms of `reprocess` is wanted; unknown if the device itself is at fault.
enum class Reach { Unknown, Device, Department };

// What a fault leaves in the body has no meaning.
[[nodiscard]] Body readBody(Kind kind, const Fields& fields, Reach reach);

// Those with parts of their own, in files of their own.
[[nodiscard]] body::Notice readNotice(const Fields& fields);
[[nodiscard]] body::Fit readFit(const Fields& fields);
[[nodiscard]] body::Check readCheck(const Fields& fields);
[[nodiscard]] body::Reprocess readReprocess(const Fields& fields, Reach reach);
[[nodiscard]] body::Sign readSign(const Fields& fields);

}  // namespace logbook
