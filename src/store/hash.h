// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// SHA-256 and the chain of hashes that ties each record to those its station wrote before it.
// Knows nothing of files.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace store {

using Hash = std::array<std::uint8_t, 32>;

// SHA-256 (FIPS 180-4) of the bytes.
[[nodiscard]] Hash sha256(std::string_view bytes);

// SHA-256 of the 32 raw bytes of the hash before (zeros for a station's first record), followed
// by the bytes of the record's content.
[[nodiscard]] Hash chainHash(const Hash& previous, std::string_view content);

// 64 figures, 0-9 a-f.
[[nodiscard]] std::string toHex(const Hash& hash);

// Nothing for any text but those that toHex gives.
[[nodiscard]] std::optional<Hash> hashFromHex(std::string_view text);

}  // namespace store
