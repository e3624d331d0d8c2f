// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Typed text as a record wants it, where that needs no guess at what was meant.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace logbook {

// As a name: white space of any kind is a blank, of which one stands between words and none around
// them; control characters fall away; letters are composed. "" where nothing else stands there.
// Nothing where it is no name even so.
[[nodiscard]] std::optional<std::string> tidyName(std::string_view text);

// As a key, which is shown as its words: in small letters, an underline between words. "" and
// nothing likewise.
[[nodiscard]] std::optional<std::string> tidyKey(std::string_view text);

}  // namespace logbook
