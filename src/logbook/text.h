// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What counts as a key, a station's name, or a name in a record.
#pragma once

#include <string_view>

namespace logbook {

// [a-z][a-z0-9_]*
[[nodiscard]] bool isKey(std::string_view text);

// [a-z0-9][a-z0-9-]{0,31}
[[nodiscard]] bool isStationName(std::string_view text);

// A serial, lot, model, asset, person or location: valid UTF-8 in NFC, 1 to 64 characters, no
// control characters, no white space but single blanks (U+0020) inside.
[[nodiscard]] bool isName(std::string_view text);

// Well-formed UTF-8: no overlong forms, surrogates, or values beyond U+10FFFF.
[[nodiscard]] bool isUtf8(std::string_view text);

}  // namespace logbook
