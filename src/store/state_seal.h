// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What tells kept states that this user's programs made on this computer from those that somebody
// else put into a file: a key of the user's own, in a file that nobody else may read. For this
// folder only.
#pragma once

#include "store/hash.h"

#include <filesystem>
#include <optional>
#include <string_view>

namespace store {

class StateSeal {
public:
    // By the key in the folder that the system has for what programs of this user keep to
    // themselves, which is made at the first time. Nothing where there is no such folder, or it
    // does not take or give the key.
    [[nodiscard]] static std::optional<StateSeal> own();
    [[nodiscard]] static std::optional<StateSeal> in(const std::filesystem::path& folder);

    // Names the key and says nothing else of it.
    [[nodiscard]] Hash id() const { return over("whose kept states"); }

    // Only who has the key can tell it: 256 bits of HMAC-SHA-512 (RFC 2104).
    [[nodiscard]] Hash over(std::string_view bytes) const;
    [[nodiscard]] Hash over(const Hash& hash) const;

private:
    explicit StateSeal(const Hash& key) : m_key(key) {}

    Hash m_key;
};

// Where the key of StateSeal::own lies; nothing where the user has no folder of their own.
[[nodiscard]] std::optional<std::filesystem::path> folderOfOwnSeal();

}  // namespace store
